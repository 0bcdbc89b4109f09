import { parse } from 'csv-parse/sync';
import { LIMITS, refuse, sheetOf } from './sheet.ts';
import type { ReadSheet } from './sheet.ts';

const SEPARATORS = [',', ';', '\t'] as const;
type Separator = (typeof SEPARATORS)[number];

/** The separator that stands most often in the headings, outside quotes; a comma where there is none. */
export function separatorOf(text: string): Separator {
  const counts = new Map<string, number>();
  let quoted = false;
  for (const sign of text) {
    if (sign === '"') quoted = !quoted;
    else if (!quoted && (sign === '\n' || sign === '\r')) {
      if (counts.size > 0) break;
    } else if (!quoted && SEPARATORS.some((one) => one === sign)) counts.set(sign, (counts.get(sign) ?? 0) + 1);
  }
  return SEPARATORS.reduce((best, one) => ((counts.get(one) ?? 0) > (counts.get(best) ?? 0) ? one : best), ',');
}

interface Line {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

/** Reads comma, semicolon or tab separated text. A cell that begins with `=` is text like any other. */
export function readCsv(text: string): ReadSheet {
  try {
    const lines = parse(text, {
      bom: true,
      delimiter: separatorOf(text),
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      max_record_size: LIMITS.columns * LIMITS.cellCharacters,
      to: LIMITS.rows + 2,
    }) as unknown as Line[];
    return sheetOf(
      'csv',
      // The library says where a record ends; one with a line break in a cell began earlier.
      lines.map(({ record, info }) => ({ number: info.lines - breaksIn(record), cells: record })),
    );
  } catch (error) {
    const line = lineOf(error);
    return refuse(
      line === undefined
        ? 'The file cannot be read as a table: save it as “CSV UTF-8” and choose it again.'
        : `Row ${line}: a quote is not closed or stands inside a cell; put it right and choose the file again.`,
    );
  }
}

const breaksIn = (record: readonly string[]): number =>
  record.reduce((count, cell) => count + (cell.match(/\r\n|\r|\n/g)?.length ?? 0), 0);

const lineOf = (error: unknown): number | undefined =>
  error instanceof Error && 'lines' in error && typeof error.lines === 'number' ? error.lines : undefined;
