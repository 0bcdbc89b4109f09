import { FIELDS } from './fields.ts';
import type { Field } from './field.ts';
import type { SheetKind } from './fields.ts';
import { likeness, plain } from './likeness.ts';

/** Which field each column holds, by the column's place; null for one that is left out. */
export type Matched = readonly (string | null)[];

/** Below it two headings have little more in common than a few letters. */
const ALIKE = 0.7;

const scoreOf = (heading: string, field: Field): number => {
  // Its own label goes before another name for it, where both are the same.
  if (plain(heading) === plain(field.label)) return 1.1;
  return Math.max(likeness(heading, field.label), ...field.names.map((name) => likeness(heading, name)));
};

/** Proposes a field for each heading: the most alike first, each field once, nothing where nothing is alike. */
export function matchColumns(kind: SheetKind, header: readonly string[]): Matched {
  const pairs = header.flatMap((heading, column) =>
    FIELDS[kind].map((field) => ({ column, id: field.id, score: scoreOf(heading, field) })),
  );
  const ranked = pairs.filter(({ score }) => score >= ALIKE).sort((a, b) => b.score - a.score || a.column - b.column);
  const byColumn = new Map<number, string>();
  const taken = new Set<string>();
  for (const { column, id } of ranked) {
    if (byColumn.has(column) || taken.has(id)) continue;
    byColumn.set(column, id);
    taken.add(id);
  }
  return header.map((_, column) => byColumn.get(column) ?? null);
}

/** What stands against a match as a whole, each with what would be right; empty when it may be tried. */
export function matchFaults(kind: SheetKind, header: readonly string[], matched: Matched): string[] {
  if (matched.length !== header.length) return ['Columns: say of each what it holds, or that it is left out.'];
  const labels = new Map(FIELDS[kind].map((field) => [field.id, field.label]));
  const used = matched.filter((id) => id !== null);
  const unknown = used.some((id) => !labels.has(id));
  const twice = used.find((id, at) => used.indexOf(id) !== at);
  const missing = FIELDS[kind].filter(({ id, required }) => required && !used.includes(id));
  return [
    ...(unknown ? ['Columns: one is not known here; choose it from the list.'] : []),
    ...(twice === undefined ? [] : [`${labels.get(twice) ?? twice}: two columns hold it; choose one.`]),
    ...missing.map(({ label }) => `${label}: say which column holds it.`),
  ];
}

/** Headings as they are remembered: their own words and order, whatever their case and signs. */
export const headerKey = (header: readonly string[]): string => header.map(plain).join('|');
