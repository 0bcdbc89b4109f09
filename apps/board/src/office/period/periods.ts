import type { Route } from 'next';

/** Calendar days, both included. */
export interface Days {
  readonly from: string;
  readonly to: string;
}
export interface PeriodChoice extends Days {
  readonly words: string;
}
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? (value[0] ?? '') : (value ?? ''));
const isDay = (text: string): boolean => DAY.test(text) && !Number.isNaN(Date.parse(text));
const yearOf = (year: number): Days => ({ from: `${year}-01-01`, to: `${year}-12-31` });
const QUARTERS = [
  ['01-01', '03-31'],
  ['04-01', '06-30'],
  ['07-01', '09-30'],
  ['10-01', '12-31'],
] as const;

/** The days in an address; `today`'s year where they are none that a person could mean. */
export function askedDays(said: Readonly<Record<string, string | string[] | undefined>>, today: string): Days {
  const [from, to] = [one(said['from']), one(said['to'])];
  return isDay(from) && isDay(to) && from <= to ? { from, to } : yearOf(Number(today.slice(0, 4)));
}

/** This year and the two before, and the quarters of the year that is looked at. */
export function periodChoices({ from }: Days, today: string): readonly PeriodChoice[] {
  const [now, looked] = [Number(today.slice(0, 4)), Number(from.slice(0, 4))];
  const years = [now, now - 1, now - 2];
  if (!years.includes(looked)) years.push(looked);
  return [
    ...years.map((year) => ({ words: String(year), ...yearOf(year) })),
    ...QUARTERS.map(([first, last], i) => ({
      words: `Q${i + 1} ${looked}`,
      ...{ from: `${looked}-${first}`, to: `${looked}-${last}` },
    })),
  ];
}

const query = (asked: Readonly<Record<string, string>>): string => String(new URLSearchParams(asked));
/** `of` unfolds the accounts behind one gas. */
export const periodPath = ({ from, to }: Days, of?: string): Route =>
  `/books/period?${query({ from, to, ...(of === undefined ? {} : { of }) })}${of === undefined ? '' : '#accounts'}` as Route;
export const periodFile = ({ from, to }: Days, extension: 'csv' | 'pdf'): string =>
  `/v1/books/period.${extension}?${query({ from, to })}`;
