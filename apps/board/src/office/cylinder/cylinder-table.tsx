import type { CylinderListView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { cylinderPath, visitPath } from '../link-to.ts';
import { aboutWords, gramsWords } from '../masses.ts';
import { dayAt, dayWords } from '../when.ts';
import { AWAY_WORDS, fitWords, KIND_WORDS } from './words.ts';

type Item = CylinderListView['items'][number];

export interface CylinderTableProps {
  readonly items: readonly Item[];
  readonly unit: MassUnit;
  readonly zone: string;
  readonly empty: ReactNode;
}

/** What is in it; of an empty one what it is for, so that the two are not taken for each other. */
function Gas({ item: { refrigerant, netGrams, alsoHolds, mixed } }: { item: Item }) {
  if (refrigerant === null) return <span className="quiet">none</span>;
  if (netGrams === 0) return <span className="quiet">for {refrigerant}</span>;
  return (
    <>
      {mixed ? <State mark="refused">Mixed</State> : refrigerant}
      {mixed && <small>{[refrigerant, ...alsoHolds].join(', ')}</small>}
      {!mixed && alsoHolds.length > 0 && <small>traces of {alsoHolds.join(', ')}</small>}
    </>
  );
}

function LastWeighed({ item: { lastWeighed }, zone }: { item: Item; zone: string }) {
  if (lastWeighed === null) return <span className="quiet">never</span>;
  const { at, site, visitId, by } = lastWeighed;
  return (
    <>
      {dayWords(dayAt(at, zone))}
      <small>
        {site === null || visitId === null ? 'not at a visit' : <Link href={visitPath(visitId)}>{site}</Link>}
        {by !== null && `, ${by}`}
      </small>
    </>
  );
}

function Kept({ item: { place, away } }: { item: Item }) {
  if (away === 'lost') return <State mark="unsure">{AWAY_WORDS.lost}</State>;
  if (away !== null) return <span className="quiet">{AWAY_WORDS[away]}</span>;
  return place === null ? <span className="quiet">not said</span> : place.name;
}

function Net({ item: { netGrams }, unit }: { item: Item; unit: MassUnit }) {
  if (netGrams === 0) return <span className="quiet">empty</span>;
  return (
    <>
      {aboutWords(netGrams, unit)}
      <small>{gramsWords(netGrams)}</small>
    </>
  );
}

const columnsOf = ({ unit, zone }: Pick<CylinderTableProps, 'unit' | 'zone'>): Column<Item>[] => [
  {
    id: 'name',
    head: 'Cylinder',
    cell: (item) => (
      <>
        <Link className="id" href={cylinderPath(item.id)}>
          {item.label ?? item.serial}
        </Link>
        {item.label !== null && <small className="id">{item.serial}</small>}
      </>
    ),
  },
  {
    id: 'kind',
    head: 'Kind',
    cell: (item) => (
      <>
        {KIND_WORDS[item.kind]}
        <small>{item.specification}</small>
      </>
    ),
  },
  { id: 'gas', head: 'Gas', cell: (item) => <Gas item={item} /> },
  { id: 'net', head: 'Net', right: true, cell: (item) => <Net item={item} unit={unit} /> },
  {
    id: 'fit',
    head: 'Fit for',
    cell: ({ fit }) => (fit.includes('nothing') ? <State mark="refused">Nothing</State> : fitWords(fit)),
  },
  {
    id: 'doubt',
    head: 'Doubts',
    cell: (item) =>
      item.doubtText === null ? (
        <span className="quiet">none known</span>
      ) : (
        <State mark="unsure">{item.doubtText}</State>
      ),
  },
  { id: 'weighed', head: 'Last weighed', cell: (item) => <LastWeighed item={item} zone={zone} /> },
  { id: 'place', head: 'Kept at', cell: (item) => <Kept item={item} /> },
  { id: 'owner', head: 'Owner', cell: (item) => item.owner ?? 'this firm' },
];

/** Cylinders with what is in them and what is doubtful about it. */
export function CylinderTable({ items, unit, zone, empty }: CylinderTableProps) {
  return (
    <Table
      caption="Cylinders with contents and doubts"
      rows={items}
      keyOf={(item) => item.id}
      empty={empty}
      columns={columnsOf({ unit, zone })}
    />
  );
}
