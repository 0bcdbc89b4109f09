import type { GasUsedRow, GasUsedView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { BillGas } from '../../screens/costs/bill-gas.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { factAnchor, unitPath, visitPath } from '../link-to.ts';
import { gramsWords } from '../masses.ts';
import { dayAt, dayWords } from '../when.ts';
import { PRICES_PATH } from './asked.ts';
import css from './costs.module.css';
import { bothMasses, moneyWords, priceWords } from './words.ts';

export interface GasUsedTableProps {
  readonly list: Pick<GasUsedView, 'items' | 'currency'>;
  readonly unit: MassUnit;
  readonly zone: string;
  readonly bills: boolean;
  readonly empty: ReactNode;
}

/** Each weighing behind a figure, leading to it. */
function Facts({ row, facts, what }: { row: GasUsedRow; facts: GasUsedRow['charged']; what: string }) {
  return facts.map(({ id, grams }, i) => (
    <span key={id}>
      {i > 0 && ' + '}
      <Link href={`${visitPath(row.visitId)}#${factAnchor(id)}` as ReturnType<typeof visitPath>}>
        {gramsWords(grams)}
        <span className="spoken">, {what}</span>
      </Link>
    </span>
  ));
}

function Moved({ row, unit, which }: { row: GasUsedRow; unit: MassUnit; which: 'charged' | 'recovered' }) {
  const grams = which === 'charged' ? row.chargedGrams : row.recoveredGrams;
  if (grams === 0) return <span className="quiet">none</span>;
  return (
    <>
      {bothMasses(grams, unit)[0]}
      <small>
        <Facts row={row} facts={row[which]} what={`${row.refrigerant} ${which}`} />
      </small>
      {which === 'charged' && row.ownGrams !== grams && (
        <small>{bothMasses(row.ownGrams, unit)[0]} of it our own gas</small>
      )}
    </>
  );
}

function ToBill({ row, unit }: { row: GasUsedRow; unit: MassUnit }) {
  if (row.billGrams <= 0) return <span className="quiet">nothing</span>;
  const [first, second] = bothMasses(row.billGrams, unit);
  return (
    <>
      <b>{first}</b>
      <small>{second}</small>
    </>
  );
}

function Amount({ row, currency }: { row: GasUsedRow; currency: string }) {
  if (row.billGrams <= 0) return <span className="quiet">nothing</span>;
  if (row.price === null || row.amount === null)
    return (
      <Link href={PRICES_PATH}>
        no price<span className="spoken"> of {row.refrigerant}: the price table</span>
      </Link>
    );
  return (
    <>
      {moneyWords(row.amount, currency)}
      <small>{priceWords(row.price, currency)}</small>
    </>
  );
}

const whatOf = ({ refrigerant, day, site }: GasUsedRow): string => `${refrigerant} of ${dayWords(day)}, ${site}`;
function sumOf({ billGrams, amount }: GasUsedRow, { list, unit }: Pick<GasUsedTableProps, 'list' | 'unit'>): string {
  const masses = bothMasses(billGrams, unit).join(', ');
  return amount === null ? masses : `${masses}, ${moneyWords(amount, list.currency)} at the sale price`;
}

function Billed({ row, list, unit, zone, bills }: GasUsedTableProps & { row: GasUsedRow }) {
  const { bill, billGrams } = row;
  return (
    <>
      {bill && (
        <div>
          <State mark={bill.grams === billGrams ? 'done' : 'late'}>{bill.invoice}</State>
          <small>
            {bill.grams === billGrams
              ? `${bill.by}, ${dayWords(dayAt(bill.at, zone))}`
              : `billed as ${gramsWords(bill.grams)}; it is ${gramsWords(billGrams)} now`}
          </small>
        </div>
      )}
      {!bill && row.onSite && <small>still on site: more may follow</small>}
      {!bill && !bills && billGrams > 0 && <span className="quiet">not billed</span>}
      {bills && (bill || billGrams > 0) && (
        <BillGas
          {...{ visitId: row.visitId, refrigerant: row.refrigerant, grams: billGrams, bill }}
          what={whatOf(row)}
          sum={sumOf(row, { list, unit })}
        />
      )}
    </>
  );
}

function columnsOf(props: GasUsedTableProps): Column<GasUsedRow>[] {
  const { unit, list } = props;
  return [
    {
      id: 'visit',
      head: 'Visit',
      cell: (row) => (
        <>
          <Link href={visitPath(row.visitId)}>{dayWords(row.day)}</Link>
          <small>{row.people.join(', ')}</small>
        </>
      ),
    },
    {
      id: 'site',
      head: 'Customer, site',
      cell: (row) => (
        <>
          {row.customer}
          <small>{row.site}</small>
        </>
      ),
    },
    {
      id: 'circuits',
      head: 'Circuits',
      cell: (row) =>
        row.circuits.map(({ tag, unitId, letter }) => (
          <Link key={tag} className="id" href={unitPath(unitId, letter)}>
            {tag}{' '}
          </Link>
        )),
    },
    { id: 'gas', head: 'Gas', cell: (row) => row.refrigerant },
    { id: 'charged', head: 'Charged', right: true, cell: (row) => <Moved {...{ row, unit }} which="charged" /> },
    { id: 'recovered', head: 'Recovered', right: true, cell: (row) => <Moved {...{ row, unit }} which="recovered" /> },
    { id: 'net', head: 'Net', right: true, cell: (row) => bothMasses(row.netGrams, unit)[0] },
    { id: 'to-bill', head: 'To bill', right: true, cell: (row) => <ToBill {...{ row, unit }} /> },
    {
      id: 'amount',
      head: 'At sale price',
      right: true,
      cell: (row) => <Amount row={row} currency={list.currency} />,
    },
    { id: 'bill', head: 'Invoice', cell: (row) => <Billed {...props} row={row} /> },
  ];
}

/** Gas by visit, each figure with the weighings it is made of. */
export function GasUsedTable(props: GasUsedTableProps) {
  return (
    <div className={css['used']}>
      <Table
        caption="Gas by visit, with the invoice it stands on"
        rows={props.list.items}
        keyOf={(row) => `${row.visitId} ${row.refrigerant}`}
        empty={props.empty}
        columns={columnsOf(props)}
      />
    </div>
  );
}
