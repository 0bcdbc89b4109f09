/** Drafts: what was typed and not yet answered. One key per visit, step and circuit. */
import type { Problem } from '@ullage/contracts';
import type { Keep } from './keep.ts';

/** Raise it when a step's fields change their meaning; a draft of another version is left where it is, unread. */
const VERSION = 1;

export interface DraftPlace {
  readonly visitId: string;
  readonly step: string;
  readonly circuitId?: string | undefined;
}
export type DraftValues = Readonly<Record<string, unknown>>;
export interface Draft {
  readonly v: number;
  /** Ids made on this phone before anything is sent: a retry is the same command about the same records. */
  readonly ids: Readonly<Record<string, string>>;
  readonly values: DraftValues;
  /** Why it came back, when it was sent and refused. */
  readonly problem?: Problem | undefined;
}

const keyOf = ({ visitId, step, circuitId }: DraftPlace): string =>
  `draft|${visitId}|${step}${circuitId === undefined ? '' : `|${circuitId}`}`;

function isDraft(found: unknown): found is Draft {
  if (typeof found !== 'object' || found === null) return false;
  const { v, ids, values } = found as Partial<Draft>;
  return v === VERSION && typeof ids === 'object' && typeof values === 'object' && ids !== null && values !== null;
}

/** The draft kept at a place, if there is one that can be read. */
export function readDraft(keep: Keep, place: DraftPlace): Draft | undefined {
  const found = keep.read(keyOf(place));
  return isDraft(found) ? found : undefined;
}

/** False when the phone would not keep it. */
export const writeDraft = (keep: Keep, place: DraftPlace, draft: Omit<Draft, 'v'>): boolean =>
  keep.write(keyOf(place), { v: VERSION, ...draft });

export const dropDraft = (keep: Keep, place: DraftPlace): void => keep.drop(keyOf(place));

/** The steps of a visit that hold something typed. */
export const draftedSteps = (keep: Keep, visitId: string): readonly string[] =>
  keep.keys(`draft|${visitId}|`).map((key) => key.split('|')[2] ?? '');

const sameShape = (kept: unknown, initial: unknown): boolean =>
  Array.isArray(initial) ? Array.isArray(kept) : typeof kept === typeof initial && !Array.isArray(kept);

/**
 * Kept values over the step's own first values. A field that a newer app has added starts fresh, one that it dropped
 * is left out, so that an old draft never breaks a step.
 */
export function valuesOver<V extends object>(initial: V, kept: DraftValues | undefined): V {
  if (!kept) return initial;
  const entries = Object.entries(initial).map(([name, first]) => {
    const value = kept[name];
    return [name, value !== undefined && value !== null && sameShape(value, first) ? value : first];
  });
  return Object.fromEntries(entries) as V;
}
