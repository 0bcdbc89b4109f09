/** How the manager's screens say money, shares and rates. What is not known is said, never shown as nothing. */
import type { RepeatRow } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { aboutWords } from '../masses.ts';

/** `$1,234.50`; `$1,235` where whole units are enough. The amount is a decimal text of the API. */
export const moneyWords = (amount: string, currency: string, digits: 0 | 2 = 2): string =>
  Number(amount).toLocaleString('en-US', {
    style: 'currency',
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  });

/** A price as it was entered: `$11.25 a lb`; a fraction of a cent stays. */
export function priceWords({ amount, unit }: { amount: string; unit: string }, currency: string): string {
  const places = amount.split('.')[1]?.length ?? 0;
  const figure = Number(amount).toLocaleString('en-US', {
    style: 'currency',
    currency,
    minimumFractionDigits: Math.max(2, places),
    maximumFractionDigits: 4,
  });
  return `${figure} a ${unit}`;
}

export const timesWords = (count: number): string => {
  if (count === 1) return 'once';
  return count === 2 ? 'twice' : `${count} times`;
};

/** Tonnes from a thousand kilograms on. */
export function co2eWords(kg: number): string {
  if (kg < 1000) return `${kg.toLocaleString('en-US')} kg`;
  const tonnes = kg / 1000;
  return `${tonnes.toLocaleString('en-US', { maximumFractionDigits: tonnes < 10 ? 1 : 0 })} t`;
}

/** `1.3`, `13`: two figures are all an interval allows. */
export const rateFigure = (perYear: number): string =>
  perYear.toLocaleString('en-US', { maximumFractionDigits: perYear < 10 ? 1 : 0 });
export const rateWords = ({ perYear, lowerPerYear, upperPerYear }: RepeatRow['rate']): string =>
  `${rateFigure(perYear)} a year, ${rateFigure(lowerPerYear)} to ${rateFigure(upperPerYear)}`;

/** The firm's unit first, the other beside it. */
export function bothMasses(grams: number, unit: MassUnit): readonly [first: string, second: string] {
  const metric = unit === 'kg' || unit === 'g';
  return metric
    ? [aboutWords(grams, 'kg'), aboutWords(grams, 'lb')]
    : [aboutWords(grams, 'lb'), aboutWords(grams, 'kg')];
}

export interface Said {
  readonly text: string;
  readonly note?: string;
}
const without = (count: number, what: string): string => `${count} ${what}`;

/** Of what a sum lacks: additions nobody weighed, and days without a price. */
export function costSaid({ cost, unweighed }: Pick<RepeatRow, 'cost' | 'unweighed'>, currency: string): Said {
  const unpriced = cost.unpriced - unweighed;
  const lacks = [
    unpriced > 0 && without(unpriced, 'without a price'),
    unweighed > 0 && without(unweighed, 'not weighed'),
  ]
    .filter(Boolean)
    .join(', ');
  if (cost.amount === null)
    return { text: unpriced > 0 ? 'no price' : 'not weighed', ...(lacks ? { note: lacks } : {}) };
  const text = moneyWords(cost.amount, currency, 0);
  return lacks === '' ? { text } : { text: `${text} or more`, note: lacks };
}

export function gasSaid({ grams, unweighed }: Pick<RepeatRow, 'grams' | 'unweighed'>, unit: MassUnit): Said {
  if (grams === null) return { text: 'not weighed' };
  const [text, note] = bothMasses(grams, unit);
  return { text: unweighed === 0 ? text : `${text} or more`, note };
}

export const shareWords = (percent: number | null): string =>
  percent === null ? 'not known' : `${percent.toLocaleString('en-US', { maximumFractionDigits: 1 })} %`;

/** How long a circuit was watched, where that is less than the window. */
export const watchedWords = (days: number): string => {
  const months = Math.round(days / 30.44);
  if (days < 60) return `${days} ${days === 1 ? 'day' : 'days'} seen`;
  return `${months} months seen`;
};
