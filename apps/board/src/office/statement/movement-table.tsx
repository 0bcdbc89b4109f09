import type { StatementLine } from '@ullage/contracts';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { Table, type Column } from '../../ui/table.tsx';
import { FactName } from '../fact-name.tsx';
import { factAnchor, statementPath, thingPath } from '../link-to.ts';
import { gramsWords, signedGrams } from '../masses.ts';
import { dayAt, dayWords, momentWords } from '../when.ts';
import css from '../office.module.css';
import { causeWords } from './causes.ts';

/** A balance before the first line or after the last one. */
export interface Balance {
  readonly id: string;
  readonly words: string;
  readonly grams: number;
}
type Row = { readonly line: StatementLine; readonly isFirst: boolean } | { readonly balance: Balance };

export interface MovementTableProps {
  readonly caption: string;
  readonly lines: readonly StatementLine[];
  readonly zone: string;
  /** The ends of a statement; without them the lines stand alone. */
  readonly balances?: { readonly opening: Balance; readonly closing: Balance };
  /** Whether the account holds, or held, more than one gas: each line then says which. */
  readonly showGas: boolean;
  readonly empty: ReactNode;
}

const isUndone = ({ correctsId, correctedById }: StatementLine): boolean =>
  correctsId !== null || correctedById !== null;

/** When it happened; and when it was written down, where that was another day. */
function When({ line, zone, isFirst, alone }: WhenProps) {
  const recorded = dayAt(line.recordedAt, zone);
  return (
    <>
      {/* Several movements may rest on one fact: a link to it ends at the first. */}
      <span id={isFirst && line.fact ? factAnchor(line.fact.id) : undefined}>{momentWords(line.happenedAt, zone)}</span>
      {alone && recorded !== dayAt(line.happenedAt, zone) && <small>written down {dayWords(recorded)}</small>}
    </>
  );
}
interface WhenProps {
  readonly line: StatementLine;
  readonly zone: string;
  readonly isFirst: boolean;
  /** No column of its own says when it was written down. */
  readonly alone: boolean;
}

function Why({ line }: { line: StatementLine }) {
  const { fact, cause, correctsId, correctedById } = line;
  const name = fact && <FactName fact={fact} />;
  return (
    <>
      {cause === null ? (name ?? 'weighed') : causeWords(cause)}
      {cause !== null && name !== null && <small>worked out from {name}</small>}
      {correctsId !== null && <small>takes back the line it corrects</small>}
      {correctsId === null && correctedById !== null && <small>taken back since</small>}
    </>
  );
}

function Other({ line: { other, grams, refrigerant } }: { line: StatementLine }) {
  const path = thingPath(other) ?? statementPath(other.id, { gas: refrigerant });
  return (
    <>
      {grams < 0 ? 'to ' : 'from '}
      <Link className={(other.cylinderId ?? other.unitId) ? 'id' : undefined} href={path}>
        {other.title}
      </Link>
    </>
  );
}

function columnsOf({ zone, showGas, balances }: MovementTableProps): Column<Row>[] {
  const whole = balances !== undefined;
  const ofLine = (cell: (line: StatementLine) => ReactNode) => (row: Row) => ('line' in row ? cell(row.line) : '');
  const struck = (line: StatementLine) => (isUndone(line) ? css['struck'] : undefined);
  return [
    {
      id: 'at',
      head: 'Happened',
      cell: (row) => ('line' in row ? <When {...row} zone={zone} alone={!whole} /> : <b>{row.balance.words}</b>),
    },
    ...(whole
      ? [{ id: 'recorded', head: 'Written down', cell: ofLine((line) => momentWords(line.recordedAt, zone)) }]
      : []),
    {
      id: 'grams',
      head: 'Grams',
      right: true,
      cell: ofLine((line) => <span className={struck(line)}>{signedGrams(line.grams)}</span>),
    },
    {
      id: 'balance',
      head: 'Balance',
      right: true,
      cell: (row) => ('line' in row ? gramsWords(row.line.balanceGrams) : <b>{gramsWords(row.balance.grams)}</b>),
    },
    ...(showGas ? [{ id: 'gas', head: 'Gas', cell: ofLine((line) => line.refrigerant) }] : []),
    { id: 'other', head: 'From or to', cell: ofLine((line) => <Other line={line} />) },
    {
      id: 'why',
      head: 'Why',
      cell: ofLine((line) => <Why line={line} />),
    },
    {
      id: 'holding',
      head: 'Owner, state',
      cell: ofLine((line) => (
        <>
          {line.owner ?? 'this firm'}
          <small>{line.state.replaceAll('-', ' ')}</small>
        </>
      )),
    },
  ];
}

/** Movements of one account, each with where it comes from: the other account, the fact, or what it was worked out from. */
export function MovementTable(props: MovementTableProps) {
  const { caption, lines, balances, empty } = props;
  const seen = new Set<string>();
  const rows = lines.map((line): Row => {
    const isFirst = line.fact !== null && !seen.has(line.fact.id);
    if (line.fact) seen.add(line.fact.id);
    return { line, isFirst };
  });
  const bare = balances === undefined || rows.length === 0;
  const all: Row[] = bare ? rows : [{ balance: balances.opening }, ...rows, { balance: balances.closing }];
  return (
    <Table
      caption={caption}
      rows={all}
      keyOf={(row) => ('line' in row ? row.line.id : row.balance.id)}
      empty={empty}
      columns={columnsOf(props)}
    />
  );
}
