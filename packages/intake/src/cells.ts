/** Reads single cells as people fill them in. What is not clear is refused, with what would be right. */
import { parseMass } from '@ullage/units';
import type { EnteredMass, MassUnit } from '@ullage/units';
import { bare, plain } from './likeness.ts';

export type Cell<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string };
const fine = <T>(value: T): Cell<T> => ({ ok: true, value });
const wrong = (why: string): { ok: false; why: string } => ({ ok: false, why });

/** How a file writes figures and days, where it can be read in two ways. */
export interface Writing {
  readonly decimal: 'point' | 'comma';
  readonly days: 'month-first' | 'day-first';
}

const UNIT_WORDS: Readonly<Record<string, MassUnit>> = {
  lb: 'lb',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  oz: 'oz',
  ounce: 'oz',
  ounces: 'oz',
  kg: 'kg',
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  g: 'g',
  gram: 'g',
  grams: 'g',
  lboz: 'lb-oz',
};
export const unitOf = (text: string): MassUnit | undefined => UNIT_WORDS[bare(text)];

/**
 * A figure as decimal text with a point. A thousands sign is taken only where it can be nothing else: `1,234` of a file
 * with a decimal point could be a slip of a comma for a point, and would then be a thousand times too much.
 */
export function figureOf(text: string, decimal: Writing['decimal']): string | undefined {
  const [point, thousands] = decimal === 'point' ? (['.', ','] as const) : ([',', '.'] as const);
  const compact = text.replaceAll(/[\s\u00a0\u202f']/g, '');
  const [whole = '', fraction, ...rest] = compact.split(point);
  if (rest.length > 0 || (fraction !== undefined && !/^\d+$/.test(fraction))) return undefined;
  const digits = withoutThousands(whole, { sign: thousands, hasFraction: fraction !== undefined });
  if (digits === undefined) return undefined;
  return fraction === undefined ? digits : `${digits}.${fraction}`;
}

function withoutThousands(whole: string, { sign, hasFraction }: { sign: string; hasFraction: boolean }) {
  const groups = whole.split(sign);
  const digits = groups.join('');
  if (!/^[+-]?\d+$/.test(digits) || groups.slice(1).some((group) => group.length !== 3)) return undefined;
  // One sign and no fraction: it could part thousands or stand for a decimal.
  return groups.length === 2 && !hasFraction ? undefined : digits;
}

const POUNDS_OUNCES = /^(\d+)\s*(?:lbs?|pounds?|#)\s*,?\s*(\d+(?:\.\d+)?)\s*(?:oz|ounces?)\.?$/i;
const WITH_UNIT = /^([+\-\d.,\s\u00a0\u202f']*\d)\s*([a-z#]+)?\.?$/i;

/** A mass with the unit it bears, else the one of its column. */
export function massCell(text: string, given: { unit: MassUnit; decimal: Writing['decimal'] }): Cell<EnteredMass> {
  const both = POUNDS_OUNCES.exec(text);
  const read = both ? { value: `${both[1]} lb ${both[2]} oz`, unit: 'lb-oz' as const } : singleMass(text, given);
  if (!read) return wrong(`“${short(text)}” is no mass; give a plain number and a unit, as 18.5 lb.`);
  const parsed = parseMass(read);
  if (parsed.ok) return fine(read);
  return parsed.fault === 'negative'
    ? wrong('a mass cannot be below zero; give what was added.')
    : wrong(`“${short(text)}” is no mass; give a plain number and a unit, as 18.5 lb.`);
}

function singleMass(text: string, given: { unit: MassUnit; decimal: Writing['decimal'] }): EnteredMass | undefined {
  const match = WITH_UNIT.exec(text.trim());
  const value = match && figureOf(match[1] ?? '', given.decimal);
  if (value === undefined || value === null) return undefined;
  const word = match?.[2];
  const unit = word === undefined ? given.unit : word === '#' ? 'lb' : unitOf(word);
  if (unit === undefined) return undefined;
  // A plain figure in a column of pounds and ounces counts pounds.
  return { value, unit: unit === 'lb-oz' ? 'lb' : unit };
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const monthOf = (word: string): number => MONTHS.indexOf(plain(word).slice(0, 3)) + 1;
const two = (figure: number): string => String(figure).padStart(2, '0');

type DayParts = readonly [year: string, month: number, day: number];
const ISO = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]\d.*)?$/;
const FIGURES = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})(?: \d.*)?$/;
const DAY_MONTH = /^(\d{1,2})(?:st|nd|rd|th)?[ -]([a-z]{3,9})\.?,?[ -](\d{4})$/i;
const MONTH_DAY = /^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$/i;

/** Year, month and day of a text, as written; undefined for what is no day. */
function partsOf(text: string, days: Writing['days']): DayParts | undefined {
  const found = (pattern: RegExp, order: (parts: string[]) => DayParts): DayParts | undefined => {
    const match = pattern.exec(text);
    return match ? order([...match].slice(1)) : undefined;
  };
  return (
    found(ISO, ([year = '', month, day]) => [year, Number(month), Number(day)]) ??
    found(FIGURES, ([a, b, year = '']) =>
      days === 'month-first' ? [year, Number(a), Number(b)] : [year, Number(b), Number(a)],
    ) ??
    found(DAY_MONTH, ([day, month = '', year = '']) => [year, monthOf(month), Number(day)]) ??
    found(MONTH_DAY, ([month = '', day, year = '']) => [year, monthOf(month), Number(day)])
  );
}

const isLeap = (year: number): boolean => (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
const DAYS_IN = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const daysIn = (year: number, month: number): number => (month === 2 && isLeap(year) ? 29 : (DAYS_IN[month - 1] ?? 0));

/** A calendar day as `2026-04-30`. Years have four figures: the century of two is anybody's guess. */
export function dayCell(text: string, days: Writing['days']): Cell<string> {
  const trimmed = text.trim();
  if (/^\d{1,2}[-/.]\d{1,2}[-/.]\d{2}$/.test(trimmed))
    return wrong(`“${short(text)}” has a year of two figures; write four, as 2024-05-03.`);
  const parts = partsOf(trimmed, days);
  if (!parts) return wrong(`“${short(text)}” is no day; give one as 2024-05-03.`);
  const [year, month, day] = parts;
  if (month < 1 || month > 12 || day < 1 || day > daysIn(Number(year), month)) {
    const order = days === 'month-first' ? 'the month first' : 'the day first';
    return wrong(`“${short(text)}” is no day with ${order}; give one as 2024-05-03.`);
  }
  return fine(`${year}-${two(month)}-${two(day)}`);
}

/** A month as it is stamped, `2021-03` or `03/2021`; of a day its month. */
export function monthCell(text: string, days: Writing['days']): Cell<string> {
  const trimmed = text.trim();
  const stamped = /^(\d{4})[-/. ](\d{1,2})$/.exec(trimmed);
  const turned = /^(\d{1,2})[-/. ](\d{4})$/.exec(trimmed);
  const [year, month] = stamped ? [stamped[1], stamped[2]] : [turned?.[2], turned?.[1]];
  if (year !== undefined && Number(month) >= 1 && Number(month) <= 12) return fine(`${year}-${two(Number(month))}`);
  const day = dayCell(trimmed, days);
  return day.ok ? fine(day.value.slice(0, 7)) : wrong(`“${short(text)}” is no month; give year and month, as 2021-03.`);
}

/** Which comes first in a column of days, as far as one of them tells; undefined where all can be read in both ways. */
export function daysOf(texts: readonly string[]): Writing['days'] | undefined {
  for (const text of texts) {
    const figures = /^(\d{1,2})[-/.](\d{1,2})[-/.]\d{4}/.exec(text.trim());
    if (figures && Number(figures[1]) > 12) return 'day-first';
    if (figures && Number(figures[2]) > 12) return 'month-first';
  }
  return undefined;
}

/** Which sign parts whole from fraction, as far as one figure tells: `12,5` cannot be twelve thousand. */
export function decimalOf(texts: readonly string[]): Writing['decimal'] | undefined {
  for (const text of texts) {
    if (/\d,\d{1,2}(?:\D|$)/.test(text)) return 'comma';
    if (/\d\.\d{1,2}(?:\D|$)/.test(text)) return 'point';
  }
  return undefined;
}

/** One of a list by any of its names. */
export function choiceCell<T extends string>(
  text: string,
  choices: Readonly<Record<T, readonly string[]>>,
): T | undefined {
  const wanted = bare(text);
  const found = (Object.entries(choices) as [T, readonly string[]][]).find(([id, names]) =>
    [id, ...names].some((name) => bare(name) === wanted),
  );
  return found?.[0];
}

/** `R448a`, `448A` and `R 448 A` are R-448A. */
export function refrigerantCell(text: string, known: readonly string[]): string | undefined {
  const wanted = bare(text).replace(/^r(?=\d)/, '');
  return known.find((name) => bare(name).replace(/^r(?=\d)/, '') === wanted);
}

const QUOTED = 40;
/** As much of a cell as a sentence can bear. */
export const short = (text: string): string => (text.length <= QUOTED ? text : `${text.slice(0, QUOTED - 1)}…`);
