/** Gas used by visit as a file for an invoicing program. */
import type { GasUsedRow } from '@ullage/contracts';
import { massText, rational } from '@ullage/units';
import { stringify } from 'csv-stringify/sync';

/** A number is a number, so that a minus is no formula; text is text, and what begins like a formula is made harmless. */
type Cell = string | number | null;
const inUnit = (grams: number, unit: 'kg' | 'lb'): number => Number(massText(rational(BigInt(grams)), unit, 3));

const COLUMNS: readonly (readonly [head: string, cell: (row: GasUsedRow, currency: string) => Cell])[] = [
  ['Day', ({ day }) => day],
  ['Customer', ({ customer }) => customer],
  ['Site', ({ site }) => site],
  ['Circuits', ({ circuits }) => circuits.map(({ tag }) => tag).join(' ')],
  ['Technicians', ({ people }) => people.join(', ')],
  ['Refrigerant', ({ refrigerant }) => refrigerant],
  ['Charged, g', ({ chargedGrams }) => chargedGrams],
  ['Of it own gas, g', ({ ownGrams }) => ownGrams],
  ['Recovered, g', ({ recoveredGrams }) => recoveredGrams],
  ['Net, g', ({ netGrams }) => netGrams],
  ['To bill, g', ({ billGrams }) => billGrams],
  ['To bill, kg', ({ billGrams }) => inUnit(billGrams, 'kg')],
  ['To bill, lb', ({ billGrams }) => inUnit(billGrams, 'lb')],
  ['Sale price', ({ price }) => (price ? Number(price.amount) : 'no price')],
  ['Price per', ({ price }) => price?.unit ?? null],
  ['Amount', ({ amount }) => (amount === null ? null : Number(amount))],
  ['Currency', (_, currency) => currency],
  ['Invoice', ({ bill }) => bill?.invoice ?? null],
  ['Billed, g', ({ bill }) => bill?.grams ?? null],
  ['Marked by', ({ bill }) => bill?.by ?? null],
  ['Marked at', ({ bill }) => bill?.at ?? null],
  ['Visit', ({ visitId }) => visitId],
];

/**
 * RFC 4180, UTF-8 with a byte-order mark, without which spreadsheets take it for another encoding. Text that begins with
 * = + - @ is kept from being run as a formula by an apostrophe (OWASP, CSV injection).
 */
export const gasUsedCsv = (rows: readonly GasUsedRow[], currency: string): string =>
  stringify(
    rows.map((row) => COLUMNS.map(([, cell]) => cell(row, currency))),
    {
      header: true,
      columns: COLUMNS.map(([head]) => head),
      bom: true,
      record_delimiter: 'windows',
      quoted_string: true,
      escape_formulas: true,
    },
  );
