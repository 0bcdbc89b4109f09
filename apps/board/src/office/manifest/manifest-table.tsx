import type { ManifestListView } from '@ullage/contracts';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { manifestPath } from '../link-to.ts';
import { gramsWords, signedGrams } from '../masses.ts';
import { momentWords } from '../when.ts';
import { manifestState, PURPOSE_WORDS } from './manifest-words.ts';

type Item = ManifestListView['items'][number];

function Accepted({ item }: { item: Item }) {
  const { accepted, cylinders, acceptedGrams, sentGrams } = item;
  if (accepted === 0) return <span className="quiet">nothing yet</span>;
  return (
    <>
      {gramsWords(acceptedGrams)}
      {accepted === cylinders && acceptedGrams !== sentGrams && <small>{signedGrams(acceptedGrams - sentGrams)}</small>}
    </>
  );
}

const columnsOf = (zone: string): Column<Item>[] => [
  {
    id: 'sent',
    head: 'Sent',
    cell: (item) => (
      <>
        <Link href={manifestPath(item.id)}>{momentWords(item.at, zone)}</Link>
        {item.by !== null && <small>{item.by}</small>}
      </>
    ),
  },
  {
    id: 'to',
    head: 'To',
    cell: ({ receiver, reference }) => (
      <>
        {receiver}
        {reference !== null && <small className="id">{reference}</small>}
      </>
    ),
  },
  { id: 'for', head: 'For', cell: ({ purpose }) => PURPOSE_WORDS[purpose] },
  { id: 'cylinders', head: 'Cylinders', right: true, cell: ({ cylinders }) => cylinders },
  { id: 'net', head: 'Net sent', right: true, cell: ({ sentGrams }) => gramsWords(sentGrams) },
  { id: 'accepted', head: 'Accepted', right: true, cell: (item) => <Accepted item={item} /> },
  {
    id: 'state',
    head: 'State',
    cell: (item) => {
      const { mark, text } = manifestState(item);
      return <State mark={mark}>{text}</State>;
    },
  },
];

export interface ManifestTableProps {
  readonly items: readonly Item[];
  readonly zone: string;
  readonly empty: ReactNode;
}
export function ManifestTable({ items, zone, empty }: ManifestTableProps) {
  return (
    <Table
      caption="Manifests, newest first"
      rows={items}
      keyOf={({ id }) => id}
      columns={columnsOf(zone)}
      empty={empty}
    />
  );
}
