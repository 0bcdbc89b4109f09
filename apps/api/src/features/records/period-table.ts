/** The books of a period as lines of text and grams: what the CSV file and the printed page both show. */
import type { PeriodView } from '@ullage/contracts';

export type Cell = string | number;
interface Column {
  readonly head: string;
  readonly of: (book: PeriodView['books'][number]) => Cell;
}
export const COLUMNS: readonly Column[] = [
  { head: 'Refrigerant', of: (book) => book.refrigerant },
  { head: 'Opening in cylinders (g)', of: (book) => book.opening.cylinders },
  { head: 'Opening in circuits (g)', of: (book) => book.opening.circuits },
  { head: 'Brought into the books (g)', of: (book) => book.broughtIn },
  { head: 'Purchased (g)', of: (book) => book.purchased },
  { head: 'Net from others (g)', of: (book) => book.fromOthers },
  { head: 'Charged (g)', of: (book) => book.charged },
  { head: 'Recovered (g)', of: (book) => book.recovered },
  { head: 'Sent to reclaim or destruction (g)', of: (book) => book.sent },
  { head: 'Leaked (g)', of: (book) => book.emissions.leaked },
  { head: 'Service loss (g)', of: (book) => book.emissions.service },
  { head: 'Emissions (g)', of: (book) => book.emissions.total },
  { head: 'Net to discrepancy (g)', of: (book) => book.missing },
  { head: 'Closing in cylinders (g)', of: (book) => book.closing.cylinders },
  { head: 'Closing in circuits (g)', of: (book) => book.closing.circuits },
  { head: 'Mass balance: stock fell (g)', of: (book) => book.massBalance.inventoryFell },
  { head: 'Mass balance: acquired (g)', of: (book) => book.massBalance.acquired },
  { head: 'Mass balance: disbursed (g)', of: (book) => book.massBalance.disbursed },
  { head: 'Mass balance: full charges rose (g)', of: (book) => book.massBalance.fullChargeRose },
  { head: 'Mass balance: emissions (g)', of: (book) => book.massBalance.emissions },
  { head: 'Ledger less mass balance (g)', of: (book) => book.difference.total },
  { head: 'of it out of discrepancy (g)', of: (book) => book.difference.outOfDiscrepancy },
  { head: 'of it further below full (g)', of: (book) => book.difference.furtherBelowFull },
];

/** `books-2026-01-01-to-2026-12-31.csv`. */
export const fileName = ({ from, to }: PeriodView, extension: 'csv' | 'pdf'): string =>
  `books-${from}-to-${to}.${extension}`;
