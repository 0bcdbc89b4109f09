/** The books of a period: what each refrigerant opened with, what moved, what left for good, and a stocktaking beside it. */
import { fullGramsAt, periodBooks } from '@ullage/gasbook';
import type { FullCharges } from '@ullage/gasbook';
import { OUTSIDE_KINDS } from '@ullage/contracts';
import type { PeriodAccountsView, PeriodView } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { exactGrams, roundHalfUp } from '@ullage/units';
import type { EnteredMass, Instant } from '@ullage/units';
import { outsideAccounts } from '../gas/accounts.ts';
import type { PeriodAsked } from '../office.ts';
import { toInstant } from '../pipeline/case.ts';
import { accountRefs } from './accounts.ts';
import { CIRCUITS, FLOWS, PERIOD_ACCOUNTS } from './period.sql.ts';
import type { Viewer } from './viewer.ts';

interface Period {
  readonly from: string;
  readonly to: string;
  /** The first instant of the first day, and the first after the last day, by the contractor's clock. */
  readonly begins: Instant;
  readonly ends: Instant;
}
/** The days asked for; the current year to its end without them. */
function periodOf({ world: { calendar }, tenant: { timeZone }, now }: Viewer, asked: PeriodAsked): Period {
  const year = calendar.dayOf(now, timeZone).slice(0, 4);
  const { from = `${year}-01-01`, to = `${year}-12-31` } = asked;
  const ends = calendar.startOf(calendar.addDays(to, 1), timeZone);
  return { from, to, begins: calendar.startOf(from, timeZone), ends };
}

/** Full charges at both ends, of the circuits that the books had met by then and that were not yet closed. */
async function fullChargesOf({ tx, tenantId, world }: Viewer, period: Period): Promise<Map<string, FullCharges>> {
  const { calendar } = world;
  const sums = new Map<string, { opening: number; closing: number }>();
  for (const { refrigerant, firstAt, closedAt, timeZone, fullCharges } of await txQuery(tx, CIRCUITS, [
    tenantId,
    period.ends,
  ])) {
    const dated = fullCharges.map(({ id, fromOn, value, unit }) => ({
      id,
      from: calendar.startOf(fromOn, timeZone),
      grams: Number(roundHalfUp(exactGrams({ value, unit } as EnteredMass))),
    }));
    const fullAt = (at: Instant): number => {
      const isIn = toInstant(firstAt) < at && (closedAt === null || toInstant(closedAt) >= at);
      return isIn ? (fullGramsAt(dated, at) ?? 0) : 0;
    };
    const sum = sums.get(refrigerant) ?? { opening: 0, closing: 0 };
    sum.opening += fullAt(period.begins);
    sum.closing += fullAt(period.ends);
    sums.set(refrigerant, sum);
  }
  return sums;
}

export async function periodView(viewer: Viewer, asked: PeriodAsked): Promise<PeriodView> {
  const { tx, tenantId, tenant, now } = viewer;
  const period = periodOf(viewer, asked);
  const flows = await txQuery(tx, FLOWS, [tenantId, period.begins, period.ends]);
  const outside = await outsideAccounts(tx, tenantId);
  const ids = OUTSIDE_KINDS.map((kind) => [kind, outside[kind]] as const);
  return {
    contractor: tenant.name,
    from: period.from,
    to: period.to,
    timeZone: tenant.timeZone,
    madeAt: now,
    books: periodBooks(flows, await fullChargesOf(viewer, period)),
    accounts: Object.fromEntries(ids) as PeriodView['accounts'],
  };
}

const SHOWN = 200;
export async function periodAccountsView(
  viewer: Viewer,
  asked: PeriodAsked & { readonly refrigerant: string },
): Promise<PeriodAccountsView> {
  const { begins, ends } = periodOf(viewer, asked);
  const { refrigerant } = asked;
  const rows = await txQuery(viewer.tx, PERIOD_ACCOUNTS, [viewer.tenantId, begins, ends, refrigerant, SHOWN + 1]);
  const shown = rows.slice(0, SHOWN);
  const refs = await accountRefs(
    viewer,
    shown.map(({ accountId }) => accountId),
  );
  const accounts = shown.flatMap(({ accountId, openingGrams, inGrams, outGrams }) => {
    const account = refs.get(accountId);
    if (!account) return [];
    return [{ account, openingGrams, inGrams, outGrams, closingGrams: openingGrams + inGrams - outGrams }];
  });
  return { refrigerant, accounts, more: rows.length > SHOWN };
}
