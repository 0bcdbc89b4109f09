/** What was weighed under a tare that was put right later. */
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Instant } from '@ullage/units';
import { instantOfFact } from './instant.ts';
import { ACT, actStep, gramsByFact, whereOf } from './acts.ts';
import type { Records } from './checks.ts';
import type { Touched } from './touched.ts';

/**
 * For when the tare counts that a correction gave: the row was made with it, and is told by its instant. The first one
 * holds from the beginning, as for whoever reads a weighing.
 */
export async function tareSpan(
  { tx, tenantId }: Records,
  { cylinderId, factId }: { cylinderId: string; factId: string },
): Promise<{ since: Instant | null; until: Instant | null }> {
  const fact = await tx.fact.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: factId } } });
  const rows = await tx.cylinderTare.findMany({ where: { tenantId, cylinderId }, orderBy: { fromAt: 'asc' } });
  const row = rows.find(({ recordedAt }) => recordedAt.getTime() === fact.recordedAt.getTime());
  const since = row?.fromAt ?? fact.happenedAt ?? fact.recordedAt;
  const next = rows.find(({ fromAt }) => fromAt > since);
  const isFirst = rows[0]?.fromAt.getTime() === since.getTime();
  return { since: isFirst ? null : toInstant(since), until: next ? toInstant(next.fromAt) : null };
}

/** The cylinder, and each act at which it was weighed under that tare before it was put right. */
export async function touchedByTare(
  records: Records,
  { cylinderId, factId }: { cylinderId: string; factId: string },
): Promise<Touched[]> {
  const { tx, tenantId } = records;
  const { since, until } = await tareSpan(records, { cylinderId, factId });
  const put = await tx.fact.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: factId } } });
  const rows = await tx.fact.findMany({
    where: {
      tenantId,
      kind: { not: 'correction' },
      recordedAt: { lt: put.recordedAt },
      weighings: {
        some: {
          cylinderId,
          at: { ...(since === null ? {} : { gte: toDate(since) }), ...(until === null ? {} : { lt: toDate(until) }) },
        },
      },
    },
    select: ACT,
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  const [first] = rows;
  if (!first) return [];
  const grams = await gramsByFact(
    records,
    rows.map(({ id }) => id),
  );
  const steps = rows.map((row) => ({
    row,
    step: actStep(row, { from: 'Tare', to: whereOf(row), grams: grams.get(row.id) ?? null }),
  }));
  const own = steps.map(({ step }) => step);
  const cylinder: Touched = {
    kind: 'cylinder',
    id: cylinderId,
    at: instantOfFact(first),
    grams: null,
    way: own.slice(0, 1),
    more: own.slice(1),
    recordedAt: new Date(0),
  };
  return [
    cylinder,
    ...steps.map(({ row, step }): Touched => {
      const { at, grams: moved } = step;
      return { kind: 'weighing', id: row.id, at, grams: moved, way: [step], more: [], recordedAt: row.recordedAt };
    }),
  ];
}
