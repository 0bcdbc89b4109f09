import type { PeriodBookView, PeriodView } from '@ullage/contracts';
import Link from 'next/link';
import { Table } from '../../ui/table.tsx';
import { statementPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';

interface Line {
  readonly words: string;
  readonly grams: number;
  /** The accounts whose movements these are. */
  readonly kinds?: readonly (keyof PeriodView['accounts'])[];
  readonly sum?: boolean;
}
const linesOf = ({ emissions, massBalance, difference }: PeriodBookView): readonly Line[] => [
  { words: 'Leaked', grams: emissions.leaked, kinds: ['atmosphere'] },
  { words: 'Service loss', grams: emissions.service, kinds: ['service-loss'] },
  { words: 'Emissions by the ledger', grams: emissions.total, sum: true },
  { words: 'Stock in cylinders fell by', grams: massBalance.inventoryFell },
  { words: 'plus acquired', grams: massBalance.acquired, kinds: ['supplier', 'opening', 'other-party'] },
  { words: 'less disbursed', grams: massBalance.disbursed, kinds: ['reclaimer', 'destroyer'] },
  { words: 'less rise of full charges', grams: massBalance.fullChargeRose },
  { words: 'Emissions by mass balance', grams: massBalance.emissions, sum: true },
  { words: 'Gas out of discrepancy', grams: difference.outOfDiscrepancy, kinds: ['discrepancy'] },
  { words: 'Circuits further below their full charge', grams: difference.furtherBelowFull },
  { words: 'Ledger less mass balance', grams: difference.total, sum: true },
];
const ACCOUNT: Readonly<Record<keyof PeriodView['accounts'], string>> = {
  opening: 'Opening',
  supplier: 'Supplier',
  'other-party': 'Other party',
  reclaimer: 'Reclaimer',
  destroyer: 'Destroyer',
  atmosphere: 'Atmosphere',
  'service-loss': 'Service loss',
  discrepancy: 'Discrepancy',
};

/** What left by the ledger, what a stocktaking would conclude, and why the two differ. */
export function Balance({ book, accounts }: { book: PeriodBookView; accounts: PeriodView['accounts'] }) {
  return (
    <Table
      caption={`Emissions of ${book.refrigerant} by the ledger and by mass balance`}
      rows={linesOf(book)}
      keyOf={(line) => line.words}
      empty={null}
      columns={[
        { id: 'words', head: 'Line', cell: ({ words, sum }) => (sum ? <b>{words}</b> : words) },
        {
          id: 'accounts',
          head: 'Statement',
          cell: ({ kinds = [] }) =>
            kinds.map((kind, i) => (
              <span key={kind}>
                {i > 0 && ', '}
                <Link href={statementPath(accounts[kind], { gas: book.refrigerant })}>{ACCOUNT[kind]}</Link>
              </span>
            )),
        },
        {
          id: 'grams',
          head: 'Grams',
          right: true,
          cell: ({ grams, sum }) => (sum ? <b>{gramsWords(grams)}</b> : gramsWords(grams)),
        },
      ]}
    />
  );
}
