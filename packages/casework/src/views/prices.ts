/** What each gas has cost since when. */
import type { PriceUnit, PriceView, PricesView } from '@ullage/contracts';
import { dateToDay, toInstant } from '../pipeline/case.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

function loadPrices({ tx, tenantId }: Viewer) {
  return tx.gasPrice.findMany({
    where: { tenantId },
    include: { setter: { select: { name: true } }, withdrawer: { select: { name: true } } },
    orderBy: [{ refrigerant: 'asc' }, { fromOn: 'desc' }, { setAt: 'desc' }, { id: 'desc' }],
  });
}
type Row = Awaited<ReturnType<typeof loadPrices>>[number];

const stands = (row: Row, currency: string): boolean => row.withdrawnAt === null && row.currency === currency;

/** A gas's prices, newest first, each with the last day before the next one that stands. */
function historyOf(viewer: Viewer, rows: readonly Row[]): PriceView[] {
  const { calendar } = viewer.world;
  const { currency } = viewer.tenant;
  let following: string | null = null;
  return rows.map((row): PriceView => {
    const fromOn = dateToDay(row.fromOn);
    const standing = stands(row, currency);
    const untilOn = standing && following !== null ? calendar.addDays(following, -1) : null;
    if (standing) following = fromOn;
    return {
      id: row.id,
      refrigerant: row.refrigerant,
      fromOn,
      untilOn,
      unit: row.unit as PriceUnit,
      purchase: row.purchase,
      sale: row.sale,
      currency: row.currency,
      setBy: row.setter.name,
      setAt: toInstant(row.setAt),
      withdrawn: row.withdrawnAt ? { by: row.withdrawer?.name ?? '', at: toInstant(row.withdrawnAt) } : null,
    };
  });
}

/** Refrigerants that are worked with here. */
async function refrigerantsHere({ tx, tenantId }: Viewer): Promise<Set<string>> {
  const circuits = await tx.circuit.findMany({
    where: { tenantId, closedAt: null, withdrawnAt: null },
    distinct: ['refrigerant'],
    select: { refrigerant: true },
  });
  const held = await tx.balance.findMany({
    where: { tenantId, kind: 'cylinder', grams: { gt: 0 } },
    distinct: ['refrigerant'],
    select: { refrigerant: true },
  });
  return new Set([...circuits, ...held].map(({ refrigerant }) => refrigerant));
}

const byName = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true });

export async function pricesView(viewer: Viewer): Promise<PricesView> {
  const { calendar } = viewer.world;
  const { currency, timeZone } = viewer.tenant;
  const today = calendar.dayOf(viewer.now, timeZone);
  const gases = Map.groupBy(await loadPrices(viewer), ({ refrigerant }) => refrigerant);
  const here = await refrigerantsHere(viewer);
  return {
    currency,
    today,
    gases: [...gases]
      .sort(([a], [b]) => byName(a, b))
      .map(([refrigerant, rows]) => {
        const history = historyOf(viewer, rows);
        const current = history.find(
          (price) => price.withdrawn === null && price.currency === currency && price.fromOn <= today,
        );
        return { refrigerant, current: current ?? null, history };
      }),
    unpriced: [...here].filter((refrigerant) => !gases.has(refrigerant)).sort(byName),
    number: await feedNumber(viewer),
  };
}
