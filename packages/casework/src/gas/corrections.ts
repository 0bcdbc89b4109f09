import { standingAct } from '@ullage/gasbook';
import type { Correction, Said, StandingAct, WeighedAct } from '@ullage/gasbook';
import type { EnteredMass } from '@ullage/units';
import { toInstant } from '../pipeline/case.ts';

/** What has to be read with a fact, so that it can be told how it stands. */
export const CORRECTIONS = {
  where: { kind: 'correction' },
  select: {
    id: true,
    happenedAt: true,
    body: true,
    factRefs: { where: { role: 'cylinder' }, select: { cylinderId: true } },
  },
} as const;

/** A fact that was taken back as a whole is read no more; it stays in the record with what took it back. */
export const NOT_WITHDRAWN = { none: { kind: 'withdrawal' } } as const;

interface CorrectionRow {
  readonly id: string;
  readonly happenedAt: Date | null;
  readonly body: unknown;
}
/** A fact that may have been corrected. */
export interface CorrectedRow {
  readonly kind: string;
  readonly body: unknown;
  readonly factCorrectses: readonly (CorrectionRow & {
    readonly factRefs: readonly { readonly cylinderId: string | null }[];
  })[];
}

export const correctionOf = ({ id, happenedAt, body }: CorrectionRow): Correction => {
  const { before, after, full } = body as Said;
  return { id, happenedAt: toInstant(happenedAt ?? new Date(0)), said: { before, after, full } };
};

/** Whose weights: those of the one cylinder of a recovery or charge, or of either one of a transfer. */
export const SIDES = ['cylinder', 'from', 'to'] as const;
export type Side = (typeof SIDES)[number];
const DIRECTIONS: Readonly<Record<string, Partial<Record<Side, 'in' | 'out'>>>> = {
  recovery: { cylinder: 'in' },
  charge: { cylinder: 'out' },
  transfer: { from: 'out', to: 'in' },
};
const saidOf = (body: unknown, side: Side): Said =>
  side === 'cylinder' ? (body as Said) : ((body as Partial<Record<Side, { weights?: Said }>>)[side]?.weights ?? {});

/** The weights of one side that can be put right; undefined where it was not weighed, and for every other fact. */
export function weighedAct({ kind, body }: Pick<CorrectedRow, 'kind' | 'body'>, side: Side): WeighedAct | undefined {
  const { before, after, full } = saidOf(body, side);
  const direction = DIRECTIONS[kind]?.[side];
  return direction && before && after ? { direction, said: { before, after, full } } : undefined;
}

/** One cylinder's weights at a fact, as they stand after their corrections, in the order in which these were made. */
export interface Standing extends StandingAct {
  readonly cylinderId: string;
}
export function standingsOfFact(
  row: CorrectedRow & { readonly factRefs: readonly { readonly role: string; readonly cylinderId: string | null }[] },
): Standing[] {
  return SIDES.flatMap((side) => {
    const act = weighedAct(row, side);
    const cylinderId = row.factRefs.find(({ role }) => role === side)?.cylinderId;
    if (!act || !cylinderId) return [];
    const own = row.factCorrectses.filter(({ factRefs }) => factRefs.some((ref) => ref.cylinderId === cylinderId));
    return [{ cylinderId, ...standingAct(act, own.map(correctionOf)) }];
  });
}

/** Both weights of a recovery or a charge as they stand. */
export function weightsOf(
  row: Pick<CorrectedRow, 'kind' | 'body'> & { readonly factCorrectses: readonly CorrectionRow[] },
): { before: EnteredMass; after: EnteredMass } | undefined {
  const act = weighedAct(row, 'cylinder');
  return act && standingAct(act, row.factCorrectses.map(correctionOf)).said;
}
