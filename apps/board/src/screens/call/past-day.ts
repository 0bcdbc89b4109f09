import { addDays } from '../../lib/local-time.ts';

const AGO = /^(\d{1,5})\s*(d|days?|w|wks?|weeks?)(?:\s+ago)?\.?$/i;
const ISO = /^(\d{4})-(\d{1,2})-(\d{1,2})$/;
/** US order, month first, as a caller in the United States says it. */
const SLASHED = /^(\d{1,2})\/(\d{1,2})\/(\d{2}|\d{4})$/;
const NAMED = /^(?:(\d{1,2})\.?\s+([a-z]{3,9})\.?|([a-z]{3,9})\.?\s+(\d{1,2}),?)\s+(\d{4})$/i;
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

function real(year: number, month: number, day: number): string | undefined {
  const text = `${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  const ms = Date.parse(`${text}T12:00:00Z`);
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(text) ? text : undefined;
}
const fullYear = (text: string): number => (text.length === 2 ? 2000 + Number(text) : Number(text));

type Reading = (text: string, today: string) => string | undefined;
const relative: Reading = (text, today) => {
  if (/^today$/i.test(text)) return today;
  if (/^yesterday$/i.test(text)) return addDays(today, -1);
  const ago = AGO.exec(text);
  if (ago?.[1] === undefined) return undefined;
  return addDays(today, -Number(ago[1]) * (ago[2]?.toLowerCase().startsWith('w') ? 7 : 1));
};
const iso: Reading = (text) => {
  const match = ISO.exec(text);
  return match ? real(Number(match[1]), Number(match[2]), Number(match[3])) : undefined;
};
const slashed: Reading = (text) => {
  const match = SLASHED.exec(text);
  return match ? real(fullYear(match[3] ?? ''), Number(match[1]), Number(match[2])) : undefined;
};
const named: Reading = (text) => {
  const match = NAMED.exec(text);
  if (!match) return undefined;
  const month = MONTHS.indexOf((match[2] ?? match[3] ?? '').slice(0, 3).toLowerCase()) + 1;
  return month === 0 ? undefined : real(Number(match[5]), month, Number(match[1] ?? match[4]));
};

/** A day as a caller tells it: `2026-02-14`, `2/14/2026`, `14 Feb 2026`, `75 days ago`, `yesterday`. Undefined for other text. */
export function pastDay(typed: string, today: string): string | undefined {
  const text = typed.trim().replace(/\s+/g, ' ');
  return relative(text, today) ?? iso(text, today) ?? slashed(text, today) ?? named(text, today);
}
