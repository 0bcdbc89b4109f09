/** Scales of the drawings. A share is 0 at the left end and 1 at the right. */

/** Whole, round steps from 0 that reach at least `max`, about `wanted` of them. @throws RangeError for max <= 0 */
export function ticksTo(max: number, wanted = 6): readonly number[] {
  if (!(max > 0) || !Number.isFinite(max)) throw new RangeError(`${max} is no end of a scale`);
  const raw = max / wanted;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((n) => n * power).find((size) => size >= raw - power * 1e-9) ?? 10 * power;
  const count = Math.ceil(max / step - 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => Number((i * step).toPrecision(12)));
}

/** The whole decades that hold every value. @throws RangeError for a value <= 0, which has no place on such a line */
export function decades(values: readonly number[]): {
  readonly low: number;
  readonly high: number;
  readonly lines: readonly number[];
} {
  if (values.length === 0 || values.some((value) => !(value > 0) || !Number.isFinite(value)))
    throw new RangeError('a logarithmic line holds values above zero');
  const first = Math.floor(Math.log10(Math.min(...values)) + 1e-12);
  const last = Math.max(first + 1, Math.ceil(Math.log10(Math.max(...values)) - 1e-12));
  const lines = Array.from({ length: last - first + 1 }, (_, i) => Number((10 ** (first + i)).toPrecision(12)));
  return { low: 10 ** first, high: 10 ** last, lines };
}

/** Share of a value on a logarithmic line. */
export const logShare = (value: number, { low, high }: { low: number; high: number }): number =>
  Math.log(value / low) / Math.log(high / low);

/** A share as svg and css take it. */
export const pct = (share: number): string => `${Math.round(share * 1e5) / 1e3}%`;

/** Keeps a share on the drawing. */
export const clampShare = (share: number): number => Math.min(1, Math.max(0, share));

/** Days since 1970-01-01 of a calendar day `YYYY-MM-DD`. @throws RangeError for anything else */
export function dayNumber(day: string): number {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(ms)) throw new RangeError(`"${day}" is no calendar day`);
  return ms / 86_400_000;
}

/** The row of each span so that none overlaps another in its row: first row that is free, in order of start. */
export function stackSpans(spans: readonly { readonly from: number; readonly to: number }[]): readonly number[] {
  const ends: number[] = [];
  const rows = new Array<number>(spans.length).fill(0);
  const order = spans.map((_, i) => i).sort((a, b) => (spans[a]?.from ?? 0) - (spans[b]?.from ?? 0));
  for (const i of order) {
    const one = spans[i];
    if (!one) continue;
    const free = ends.findIndex((end) => end <= one.from);
    const row = free === -1 ? ends.length : free;
    ends[row] = one.to;
    rows[i] = row;
  }
  return rows;
}

/** Where a day lies on a drawing, 0 to 1; linear, so that a slope is a rate. */
export type ShareOf = (day: string | number) => number;
