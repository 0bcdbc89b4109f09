import { bookedGrams } from '@ullage/units';
import type { EnteredMass, Instant } from '@ullage/units';
import type { ReachedFull } from './circuit.ts';
import { gramsMoved } from './weighing.ts';

/** What may be put right afterwards of an act: both gross weights as read, and whether the charge reached full. */
export interface Said {
  readonly before?: EnteredMass | undefined;
  readonly after?: EnteredMass | undefined;
  readonly full?: ReachedFull | undefined;
}
export interface WeighedAct {
  /** Gas went into the cylinder, or out of it. */
  readonly direction: 'in' | 'out';
  readonly said: Said & { readonly before: EnteredMass; readonly after: EnteredMass };
}
export interface Correction {
  readonly id: string;
  /** When it was made; of two made at one instant the one with the later id holds. */
  readonly happenedAt: Instant;
  readonly said: Said;
}

const FIELDS = ['before', 'after', 'full'] as const;
type Field = (typeof FIELDS)[number];

/** An act as it stands after its corrections. */
export interface StandingAct {
  readonly said: WeighedAct['said'];
  /** The correction that each comes from; null where what was said first stands. */
  readonly from: Readonly<Record<Field, string | null>>;
  /** The correction made last of which something stands. */
  readonly last: string | null;
  /** Corrections of which nothing stands, each with the one that stands in its stead; null where none does. */
  readonly superseded: ReadonlyMap<string, string | null>;
  /** Those among them that would have made a weight go the wrong way. */
  readonly setAside: ReadonlySet<string>;
}

const isPossible = ({ direction }: WeighedAct, { before, after }: WeighedAct['said']): boolean => {
  const weighing = (mass: EnteredMass) => ({ grossGrams: bookedGrams(mass), tareGrams: 0 });
  const moved = gramsMoved({ direction, before: weighing(before), after: weighing(after) });
  return moved.moved || moved.because !== 'weight-went-the-wrong-way';
};
const byInstant = (a: Correction, b: Correction): number =>
  a.happenedAt === b.happenedAt ? (a.id < b.id ? -1 : 1) : a.happenedAt < b.happenedAt ? -1 : 1;

/**
 * What stands of an act when one or several people corrected it: each weight as the correction made last left it,
 * whatever arrived first. A correction that, in its turn, would make a weight go the wrong way is set aside whole.
 */
export function standingAct(act: WeighedAct, corrections: readonly Correction[]): StandingAct {
  let said = act.said;
  const from: Record<Field, string | null> = { before: null, after: null, full: null };
  const setAside = new Set<string>();
  const inTurn = [...corrections].sort(byInstant);
  for (const { id, said: right } of inTurn) {
    const next = {
      before: right.before ?? said.before,
      after: right.after ?? said.after,
      full: right.full ?? said.full,
    };
    if (!isPossible(act, next)) {
      setAside.add(id);
      continue;
    }
    said = next;
    for (const field of FIELDS) if (right[field] !== undefined) from[field] = id;
  }
  const stands = new Set(Object.values(from));
  const last = inTurn.findLast(({ id }) => stands.has(id))?.id ?? null;
  const gone = inTurn.filter(({ id }) => !stands.has(id));
  const superseded = new Map(
    gone.map(({ id, said: right }) => [id, FIELDS.map((field) => right[field] && from[field]).find(Boolean) ?? last]),
  );
  return { said, from, last, superseded, setAside };
}
