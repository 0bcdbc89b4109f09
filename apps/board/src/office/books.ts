import type { BooksView } from '@ullage/contracts';
import type { Route } from 'next';
import { statementPath, thingPath } from './link-to.ts';

export interface BookLine {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  /** The circuit's or cylinder's own page. */
  readonly thing: Route | undefined;
  /** What moved, up to this balance. */
  readonly statement: Route;
  readonly owner: string | null;
  readonly state: string;
  readonly grams: number;
}
export interface GasBook {
  readonly refrigerant: string;
  readonly lines: readonly BookLine[];
  /** As the API added it up: zero when every gram is somewhere. */
  readonly totalGrams: number;
}

const KINDS: Readonly<Record<string, 'circuit' | 'cylinder'>> = { circuit: 'circuit', cylinder: 'cylinder' };
export const accountKindWords = (kind: string): FoldedLines['kind'] => KINDS[kind] ?? 'outside';

/** More accounts of one kind than this are folded away under their sum. */
const SHOWN = 12;
export interface FoldedLines {
  readonly kind: 'circuit' | 'cylinder' | 'outside';
  readonly lines: readonly BookLine[];
  readonly grams: number;
}
/** A book's lines as they are shown: what few accounts of a kind hold at once, many of a kind folded. */
export function foldedBook({ lines }: GasBook): { shown: readonly BookLine[]; folded: readonly FoldedLines[] } {
  const kinds = [...Map.groupBy(lines, ({ kind }) => accountKindWords(kind))];
  const many = kinds.filter(([, own]) => own.length > SHOWN);
  const folded = many.map(([kind, own]) => ({
    kind,
    lines: own,
    grams: own.reduce((sum, { grams }) => sum + grams, 0),
  }));
  const hidden = new Set(many.flatMap(([, own]) => own));
  return { shown: lines.filter((line) => !hidden.has(line)), folded };
}

const ORDER: Readonly<Record<string, number>> = { circuit: 0, cylinder: 1 };
const byKind = (a: BookLine, b: BookLine): number =>
  (ORDER[a.kind] ?? 2) - (ORDER[b.kind] ?? 2) || a.title.localeCompare(b.title, 'en', { numeric: true });

/** The accounts as one book a gas: circuits, cylinders, then what lies outside. */
export function gasBooks({ accounts, totals }: Pick<BooksView, 'accounts' | 'totals'>): readonly GasBook[] {
  return [...totals]
    .sort((a, b) => a.refrigerant.localeCompare(b.refrigerant, 'en', { numeric: true }))
    .map(({ refrigerant, grams }) => ({
      refrigerant,
      totalGrams: grams,
      lines: accounts
        .flatMap((account) =>
          account.balances
            .filter((balance) => balance.refrigerant === refrigerant)
            .map(({ owner, state, grams: held }) => ({
              id: `${account.id} ${owner ?? ''} ${state}`,
              title: account.title,
              kind: account.kind,
              thing: thingPath(account),
              statement: statementPath(account.id, { gas: refrigerant }),
              owner,
              state,
              grams: held,
            })),
        )
        .sort(byKind),
    }));
}
