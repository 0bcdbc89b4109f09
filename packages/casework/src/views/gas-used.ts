/** Gas used at each visit, and the invoice it stands on. */
import { Refusal } from '@ullage/contracts';
import type { GasUsedRow, GasUsedView } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { priceOn } from '@ullage/insight';
import { divide, multiply, rational } from '@ullage/units';
import type { GasUsedAsked } from '../office.ts';
import { toInstant } from '../pipeline/case.ts';
import { moneyText } from './figures.ts';
import { enteredOn, priceList } from './gas-prices.ts';
import type { PriceList } from './gas-prices.ts';
import { GAS_OPEN, GAS_USED } from './gas-used.sql.ts';
import type { GasUsedSqlRow } from './gas-used.sql.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

const PAGE = 50;
/** Of one file. */
const MOST_VISITS = 20_000;
const GRAMS_PER_KG = rational(1000n);

function billOf({ billId, invoice, billedGrams, billedAt, billedBy }: GasUsedSqlRow): GasUsedRow['bill'] {
  if (billId === null || invoice === null || billedGrams === null || !billedAt) return null;
  return { id: billId, invoice, grams: billedGrams, by: billedBy ?? '', at: toInstant(billedAt) };
}

function rowOf(viewer: Viewer, row: GasUsedSqlRow, prices: PriceList): GasUsedRow {
  const { at, timeZone, billId: _b, invoice: _i, billedGrams: _g, billedAt: _a, billedBy: _w, ...rest } = row;
  const day = viewer.world.calendar.dayOf(toInstant(at), timeZone);
  const own = prices.get(row.refrigerant) ?? [];
  const price = priceOn(own, day);
  const sold = rational(BigInt(row.billGrams));
  const amount = price && row.billGrams > 0 ? moneyText(divide(multiply(sold, price.perKg), GRAMS_PER_KG)) : null;
  return { ...rest, day, price: enteredOn(own, day), amount, bill: billOf(row) };
}

async function rowsOf(viewer: Viewer, asked: GasUsedAsked, visits: number): Promise<GasUsedRow[]> {
  const values = [viewer.tenantId, asked.billed ?? 'open', asked.after ?? null, visits];
  const rows = await txQuery(viewer.tx, GAS_USED, values);
  const prices = await priceList(viewer, 'sale');
  return rows.map((row) => rowOf(viewer, row, prices));
}

/** A page of visits, newest first, with every gas of each. */
export async function gasUsedView(viewer: Viewer, asked: GasUsedAsked): Promise<GasUsedView> {
  const rows = await rowsOf(viewer, asked, PAGE + 1);
  const visits = [...new Set(rows.map(({ visitId }) => visitId))];
  const shown = new Set(visits.slice(0, PAGE));
  return {
    billed: asked.billed ?? 'open',
    currency: viewer.tenant.currency,
    items: rows.filter(({ visitId }) => shown.has(visitId)),
    next: visits.length > PAGE ? (visits[PAGE - 1] ?? null) : null,
    open: await txQuery(viewer.tx, GAS_OPEN, [viewer.tenantId]),
    number: await feedNumber(viewer),
  };
}

/** All of it at once, for a file. @throws Refusal too-many beyond what one file is made for */
export async function gasUsedWhole(
  viewer: Viewer,
  { billed }: Pick<GasUsedAsked, 'billed'>,
): Promise<{ rows: GasUsedRow[]; currency: string }> {
  const rows = await rowsOf(viewer, { billed }, MOST_VISITS + 1);
  if (new Set(rows.map(({ visitId }) => visitId)).size > MOST_VISITS)
    throw new Refusal('too-large', 'File: more than 20,000 visits; ask for what is not billed yet.');
  return { rows, currency: viewer.tenant.currency };
}
