import { readFileSync } from 'node:fs';

/** One line of comma-separated text; a field in double quotes may hold commas. */
function fields(line: string): string[] {
  return [...line.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
}

export type Row = Readonly<Record<string, string>>;

/** The rows of a file in `data/`, by column name. */
export function rowsOf(name: string): readonly Row[] {
  const [head = '', ...lines] = readFileSync(new URL(`data/${name}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const columns = fields(head);
  return lines.map((line) => {
    const values = fields(line);
    if (values.length !== columns.length) throw new Error(`${name}: ${values.length} fields in "${line}"`);
    return Object.fromEntries(columns.map((column, i) => [column, values[i] ?? '']));
  });
}

/** A number in a column. @throws Error when the field is empty or no number: a check must not pass on nothing. */
export function number(row: Row, column: string): number {
  const text = row[column] ?? '';
  const value = Number(text);
  if (text === '' || !Number.isFinite(value)) throw new Error(`no number in ${column}: "${text}"`);
  return value;
}

/** How far off, in percent of the reference. */
export const percentOff = (ours: number, reference: number): number => (100 * (ours - reference)) / reference;
