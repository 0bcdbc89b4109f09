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

const KINDS: Readonly<Record<string, string>> = { circuit: 'circuit', cylinder: 'cylinder' };
export const accountKindWords = (kind: string): string => KINDS[kind] ?? 'outside';

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
