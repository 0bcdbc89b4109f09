import type { RecallItemKind, RecallStepView } from '@ullage/contracts';
import type { Instant } from '@ullage/units';

/** Something that a recall reached. */
export interface Touched {
  readonly kind: RecallItemKind;
  /** Of the cylinder or circuit; of a look, test or weighing its fact. */
  readonly id: string;
  readonly at: Instant;
  readonly grams: number | null;
  readonly way: readonly RecallStepView[];
  readonly more: readonly RecallStepView[];
  /** When the last of what touched it was written down: what was settled before is asked about again. */
  readonly recordedAt: Date;
}

/** What a recall begins at, with the span in which it counts. */
export type Source =
  | { readonly kind: 'gas'; readonly cylinderId: string; readonly since: Instant | null }
  | { readonly kind: 'instrument'; readonly instrumentId: string; readonly factId: string }
  | { readonly kind: 'tare'; readonly cylinderId: string; readonly factId: string };

/** Before everything that anybody has told. */
export const BEGINNING: Instant = '0001-01-01T00:00:00.000Z';
/** What it began at comes first: it has no way. */
export const inTime = (a: Touched, b: Touched): number =>
  Number(a.way.length > 0) - Number(b.way.length > 0) || byInstant(a, b);
const byInstant = (a: Touched, b: Touched): number =>
  a.at === b.at ? (a.kind + a.id < b.kind + b.id ? -1 : 1) : a.at < b.at ? -1 : 1;
