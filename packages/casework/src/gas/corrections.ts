import { standingAct } from '@ullage/gasbook';
import type { Correction, Said, StandingAct } from '@ullage/gasbook';
import type { EnteredMass } from '@ullage/units';
import { toInstant } from '../pipeline/case.ts';

/** What has to be read with a fact, so that it can be told how it stands. */
export const CORRECTIONS = {
  where: { kind: 'correction' },
  select: { id: true, happenedAt: true, body: true },
} as const;

interface CorrectionRow {
  readonly id: string;
  readonly happenedAt: Date | null;
  readonly body: unknown;
}
/** A fact that may have been corrected. */
export interface CorrectedRow {
  readonly kind: string;
  readonly body: unknown;
  readonly factCorrectses: readonly CorrectionRow[];
}

export const correctionOf = ({ id, happenedAt, body }: CorrectionRow): Correction => {
  const { before, after, full } = body as Said;
  return { id, happenedAt: toInstant(happenedAt ?? new Date(0)), said: { before, after, full } };
};
/** Gas goes into a cylinder by a recovery and out of it by a charge; no other fact has weights that can be put right. */
export const weighedAct = ({ kind, body }: Pick<CorrectedRow, 'kind' | 'body'>) => {
  const { before, after, full } = body as Said;
  if ((kind !== 'recovery' && kind !== 'charge') || !before || !after) return undefined;
  return { direction: kind === 'recovery' ? 'in' : 'out', said: { before, after, full } } as const;
};

/** A recovery or a charge as it stands after its corrections, in the order in which they were made; undefined for another fact. */
export function standingOfFact(row: CorrectedRow): StandingAct | undefined {
  const act = weighedAct(row);
  return act && standingAct(act, row.factCorrectses.map(correctionOf));
}

/** Both weights as they stand. */
export function weightsOf(row: CorrectedRow): { before: EnteredMass; after: EnteredMass } | undefined {
  return standingOfFact(row)?.said;
}
