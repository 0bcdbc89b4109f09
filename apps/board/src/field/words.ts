/** Words and clock times as the screens say them. */
import { CAUSES, LEAK_PLACES, LEAK_ZONES, LOOK_METHODS } from '@ullage/trail';

export { dayWords } from '@ullage/units';

export interface Choice<T extends string = string> {
  readonly value: T;
  readonly text: string;
  readonly note?: string;
}

export const PLACES_BY_ZONE: readonly { readonly zone: string; readonly places: readonly Choice[] }[] = LEAK_ZONES.map(
  (zone) => ({
    zone: zone.words,
    places: LEAK_PLACES.filter((place) => place.zone === zone.id).map(({ id, words }) => ({ value: id, text: words })),
  }),
);
export const PLACES: readonly Choice[] = LEAK_PLACES.map(({ id, words }) => ({ value: id, text: words }));
export const METHODS: readonly Choice[] = LOOK_METHODS.map(({ id, words }) => ({ value: id, text: words }));
export const CAUSE_CHOICES: readonly Choice[] = CAUSES.map(({ id, words, signs }) => ({
  value: id,
  text: words,
  note: signs,
}));

export const textOf = (choices: readonly Choice[], value: string): string =>
  choices.find((choice) => choice.value === value)?.text ?? value;
/** `Flare nut, Service valve core and 2 more`. */
export function listOf(texts: readonly string[], most = 2): string {
  const more = texts.length - most;
  return more > 0 ? `${texts.slice(0, most).join(', ')} and ${more} more` : texts.join(', ');
}

export const YES_NO = [
  { value: 'yes', text: 'Yes' },
  { value: 'no', text: 'No' },
] as const satisfies readonly Choice[];
export const PASS_FAIL = [
  { value: 'pass', text: 'Pass' },
  { value: 'fail', text: 'Fail' },
] as const satisfies readonly Choice[];
export const FULL = [
  { value: 'yes', text: 'Full now' },
  { value: 'no', text: 'Not full' },
  { value: 'unknown', text: 'Not known' },
] as const satisfies readonly Choice[];
export const UNIT_STATES = [
  { value: 'off', text: 'Off' },
  { value: 'running', text: 'Running' },
  { value: 'nitrogen', text: 'Under nitrogen' },
] as const satisfies readonly Choice[];

/** `09:06` at a place. */
export const clock = (instant: string | Date, timeZone: string): string =>
  new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit', timeZone }).format(new Date(instant));
/** `Thursday, 30 April`. */
export const longDay = (instant: string | Date, timeZone: string): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long', timeZone })
    .format(new Date(instant))
    .replace(/^(\S+) /, '$1, ');
/** `2026-04-30` at a place. */
export const dayAt = (instant: string | Date, timeZone: string): string =>
  new Intl.DateTimeFormat('en-CA', { year: 'numeric', month: '2-digit', day: '2-digit', timeZone }).format(
    new Date(instant),
  );
/** Whole days between two calendar days. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to.slice(0, 10)}T12:00:00Z`) - Date.parse(`${from.slice(0, 10)}T12:00:00Z`)) / 86_400_000);

/** `1.2 to 6 kg/yr`, `5 g/yr or more`, or nothing known. */
export function sizeWords(low: number | null, high: number | null): string {
  if (low === null && high === null) return 'size not estimated';
  const most = Math.max(low ?? 0, high ?? 0);
  const [by, unit] = most >= 1000 ? [1000, 'kg/yr'] : [1, 'g/yr'];
  const figure = (grams: number): string => String(Number((grams / by).toPrecision(3)));
  if (low === null) return `up to ${figure(most)} ${unit}`;
  if (high === null) return `${figure(low)} ${unit} or more`;
  return low === high ? `${figure(low)} ${unit}` : `${figure(low)} to ${figure(high)} ${unit}`;
}

/** A phrase as a sentence: a capital in front, a full stop behind. */
export const sentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
