import type { ImportListView } from '@ullage/contracts';
import type { Route } from 'next';
import Link from 'next/link';
import { RefreshOnChange } from '../../office/refresh-on-change.tsx';
import { momentWords } from '../../office/when.ts';
import { Table, type Column } from '../../ui/table.tsx';
import { figure, KIND_WORDS, STATE_WORDS } from './words.ts';
import css from './import.module.css';

type Item = ImportListView['items'][number];

const columnsFor = (timeZone: string): readonly Column<Item>[] => [
  { id: 'file', head: 'File', cell: (item) => <Link href={`/import/${item.id}` as Route}>{item.fileName}</Link> },
  { id: 'kind', head: 'Holds', cell: (item) => KIND_WORDS[item.kind], wideOnly: true },
  { id: 'state', head: 'State', cell: (item) => STATE_WORDS[item.state] },
  { id: 'rows', head: 'Rows', cell: (item) => figure(item.counts.rows), right: true },
  { id: 'done', head: 'Entered', cell: (item) => figure(item.counts.done), right: true },
  { id: 'by', head: 'By', cell: (item) => item.by, wideOnly: true },
  { id: 'at', head: 'Chosen', cell: (item) => momentWords(item.madeAt, timeZone) },
];
/** The last imports, newest first. */
export function ImportList({ items, timeZone }: { items: ImportListView['items']; timeZone: string }) {
  return (
    <section className={css['list']} aria-labelledby="imports">
      <RefreshOnChange />
      <h2 id="imports">Files so far</h2>
      <Table
        caption="Files so far"
        columns={columnsFor(timeZone)}
        rows={items}
        keyOf={({ id }) => id}
        empty={<p>No file has been imported.</p>}
      />
    </section>
  );
}
