import type { BooksView } from '@ullage/contracts';
import type { Route } from 'next';

type Account = BooksView['accounts'][number];
export interface BookLine {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly href: Route | undefined;
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

/** Where the account's thing is found: the list of its kind, asked for its name. Outside accounts have no page. */
export function accountPath({ kind, title }: Pick<Account, 'kind' | 'title'>): Route | undefined {
  if (kind === 'cylinder') return `/cylinders?query=${encodeURIComponent(title)}` as Route;
  if (kind !== 'circuit') return undefined;
  const tag = title.slice(0, Math.max(0, title.lastIndexOf('-'))) || title;
  return `/units?query=${encodeURIComponent(tag)}` as Route;
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
              href: accountPath(account),
              owner,
              state,
              grams: held,
            })),
        )
        .sort(byKind),
    }));
}
