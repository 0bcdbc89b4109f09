import { choiceCell, refrigerantCell, short } from './cells.ts';
import type { Cells, Ground } from './judge.ts';

export const listOf = (choices: Readonly<Record<string, unknown>>): string =>
  Object.keys(choices)
    .map((id) => id.replaceAll('-', ' '))
    .join(', ');

/** One of a list in a cell; undefined for an empty cell, with a fault for what is not on the list. */
export function pick<T extends string>(
  cells: Cells,
  id: string,
  choices: Readonly<Record<T, readonly string[]>>,
): T | undefined {
  const text = cells.get(id);
  if (text === undefined) return undefined;
  return choiceCell(text, choices) ?? cells.fault(id, `“${short(text)}” is not known; give ${listOf(choices)}.`);
}

/** A refrigerant in a cell; undefined for an empty cell, with a fault for one that no rulebook knows. */
export function sayRefrigerant(cells: Cells, { refrigerants }: Pick<Ground, 'refrigerants'>): string | undefined {
  const text = cells.get('refrigerant');
  if (text === undefined) return undefined;
  const why = `“${short(text)}” is not known here; give its number, as R-448A.`;
  return refrigerantCell(text, refrigerants) ?? cells.fault('refrigerant', why);
}
