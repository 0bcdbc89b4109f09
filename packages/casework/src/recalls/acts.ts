/** What an act with cylinders and circuits touched where its weights, or the readings at it, are in doubt. */
import type { RecallStepView } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';

import { instantOfFact } from './instant.ts';
import { FACT_WORDS, wordOf } from '../views/words.ts';
import type { Records } from './checks.ts';
import type { Touched } from './touched.ts';

export const ACT = {
  id: true,
  kind: true,
  visitId: true,
  circuitId: true,
  happenedAt: true,
  recordedAt: true,
  body: true,
  circuit: { select: { letter: true, unit: { select: { tag: true } } } },
  factRefs: {
    select: {
      role: true,
      instrumentId: true,
      cylinderId: true,
      cylinder: { select: { label: true, serial: true } },
    },
  },
  weighings: { select: { cylinderId: true, scaleId: true } },
} satisfies Prisma.FactSelect;
export type ActRow = Prisma.FactGetPayload<{ select: typeof ACT }>;

/** Grams that each of some facts moved: what was weighed, or what a mere weighing was posted for; as the books stand. */
export async function gramsByFact(
  { tx, tenantId }: Records,
  factIds: readonly string[],
): Promise<ReadonlyMap<string, number>> {
  const rows = await tx.movement.findMany({
    where: { tenantId, factId: { in: [...factIds] }, correctsId: null, movementCorrects: null },
    select: { factId: true, grams: true, derivedCause: true },
  });
  const sums = new Map<string, number>();
  for (const [id, own] of Map.groupBy(rows, ({ factId }) => factId ?? '')) {
    const primary = own.filter(({ derivedCause }) => derivedCause === null);
    sums.set(
      id,
      (primary.length > 0 ? primary : own).reduce((sum, { grams }) => sum + grams, 0),
    );
  }
  return sums;
}

/** The things of some acts, each once, by the first act that touched it; `source` is what they were done with. */
export function thingsOf(
  rows: readonly ActRow[],
  { source, grams }: { source: string; grams: ReadonlyMap<string, number> },
): Touched[] {
  const found = new Map<string, Touched>();
  const touch = (kind: 'cylinder' | 'circuit', id: string, { row, to }: { row: ActRow; to: string }): void => {
    const known = found.get(kind + id);
    const step = actStep(row, { from: source, to, grams: grams.get(row.id) ?? null });
    const own = { kind, id, at: step.at, grams: step.grams, way: [step], more: [], recordedAt: row.recordedAt };
    if (!known) found.set(kind + id, own);
    else
      found.set(kind + id, {
        ...known,
        grams: step.grams === null ? known.grams : (known.grams ?? 0) + step.grams,
        more: [...known.more, step],
        recordedAt: row.recordedAt > known.recordedAt ? row.recordedAt : known.recordedAt,
      });
  };
  for (const row of rows) {
    for (const { cylinderId, cylinder } of row.factRefs)
      if (cylinderId !== null) touch('cylinder', cylinderId, { row, to: cylinder?.label ?? cylinder?.serial ?? '' });
    if (row.circuitId !== null && row.circuit)
      touch('circuit', row.circuitId, { row, to: `${row.circuit.unit.tag}-${row.circuit.letter}` });
  }
  return [...found.values()];
}

export const actStep = (
  row: ActRow,
  { from, to, grams }: Pick<RecallStepView, 'from' | 'to' | 'grams'>,
): RecallStepView => ({
  from,
  to,
  by: wordOf(FACT_WORDS, row.kind),
  at: instantOfFact(row),
  grams,
  visitId: row.visitId,
});

/** Where an act was done, in a word: its circuit, else its cylinders. */
export const whereOf = (row: ActRow): string =>
  row.circuit
    ? `${row.circuit.unit.tag}-${row.circuit.letter}`
    : row.factRefs.flatMap(({ cylinder }) => cylinder?.label ?? cylinder?.serial ?? []).join(', ');
