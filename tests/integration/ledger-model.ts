/**
 * What the books must say at the end, worked out without postings and without replaying accounts against each other: a
 * cylinder holds what its last weighing showed; a circuit holds its full charge as of the last time it was said to be
 * full, with what came and went since; what is nowhere else is discrepancy, because every gram is somewhere.
 */
export interface Act {
  readonly kind: 'recovery' | 'charge' | 'loss';
  readonly circuit: 0 | 1;
  readonly cylinder: 0 | 1;
  /** Net grams in the cylinder before, and grams moved, as first read. */
  readonly before: number;
  readonly moved: number;
  /** The same as put right later. */
  readonly corrected: { readonly before: number; readonly moved: number } | null;
  readonly full: 'yes' | 'no' | 'unknown';
  /** Minutes into the day; no two alike. */
  readonly minute: number;
}
export interface Premises {
  readonly fullGrams: readonly [number, number];
  /** The second cylinder came new and was weighed then. */
  readonly bought: number;
}
export type Books = Readonly<Record<string, number>>;

const read = (act: Act) => (act.kind !== 'loss' && act.corrected !== null ? act.corrected : act);
const gainOf = (act: Act): number => ({ recovery: 1, charge: -1, loss: 0 })[act.kind] * read(act).moved;

type Sums = Record<string, number>;
function add(books: Sums, account: string, grams: number): void {
  books[account] = (books[account] ?? 0) + grams;
}

function reckonCylinder(books: Sums, acts: readonly Act[], { cylinder, bought }: { cylinder: 0 | 1; bought: number }) {
  const weighed = acts.filter((act) => act.kind !== 'loss' && act.cylinder === cylinder);
  const [first, last] = [weighed.at(0), weighed.at(-1)];
  add(books, `cylinder ${cylinder}`, last ? read(last).before + gainOf(last) : cylinder * bought);
  // Not bought, so it was there before the books began.
  if (first && cylinder === 0) add(books, 'Opening', -read(first).before);
}

function reckonCircuit(books: Sums, acts: readonly Act[], { circuit, full }: { circuit: 0 | 1; full: number }) {
  const own = acts.filter((act) => act.circuit === circuit);
  if (own.length === 0) return;
  add(books, 'Opening', -full);
  let holds = full;
  for (const act of own) {
    const grams = read(act).moved;
    holds = act.kind === 'charge' ? holds + grams : Math.max(0, holds - grams); // the books never held the rest
    if (act.kind === 'loss') add(books, 'Service loss', grams);
    if (act.kind !== 'charge' || act.full !== 'yes') continue;
    add(books, 'Atmosphere', Math.max(0, holds - full));
    holds = full;
  }
  add(books, `circuit ${circuit}`, holds);
}

/** Grams per account; accounts at zero are left out. */
export function booksAfter(acts: readonly Act[], { fullGrams, bought }: Premises): Books {
  const inTime = acts.toSorted((a, b) => a.minute - b.minute);
  const books: Sums = { Supplier: -bought };
  for (const which of [0, 1] as const) {
    reckonCylinder(books, inTime, { cylinder: which, bought });
    reckonCircuit(books, inTime, { circuit: which, full: fullGrams[which] });
  }
  books['Discrepancy'] = -Object.values(books).reduce((sum, grams) => sum + grams, 0);
  return Object.fromEntries(Object.entries(books).filter(([, grams]) => grams !== 0));
}
