'use client';
import { ImportRowsView, type ImportView, type RowState } from '@ullage/contracts';
import { useEffect, useState } from 'react';
import { call } from '../../lib/client.ts';
import { Button } from '../../ui/button.tsx';
import { Segment } from '../../ui/segment.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { figure, firstShown, ROW_ORDER, ROW_WORDS } from './words.ts';
import css from './import.module.css';

type Row = ImportRowsView['items'][number];
type Shown = RowState | 'all';

async function fetchRows(id: string, show: Shown, after: number | null): Promise<ImportRowsView | undefined> {
  const asked = new URLSearchParams({ show, ...(after === null ? {} : { after: String(after) }) });
  const answer = await call<unknown>(`/v1/imports/${id}/rows?${asked.toString()}`);
  return answer.ok ? ImportRowsView.parse(answer.data) : undefined;
}

/** The rows of one state, page by page; each turn of the import brings the first page anew. */
function useRows(run: ImportView, show: Shown) {
  const [page, setPage] = useState<{ of: string; items: readonly Row[]; next: number | null }>();
  const [lost, setLost] = useState(false);
  const of = `${run.turn}|${show}`;
  useEffect(() => {
    let left = false;
    void fetchRows(run.id, show, null).then((rows) => {
      if (left) return;
      setLost(rows === undefined);
      if (rows) setPage({ of, ...rows });
    });
    return () => {
      left = true;
    };
  }, [run.id, of, show]);
  async function more(): Promise<void> {
    if (!page || page.next === null) return;
    const rows = await fetchRows(run.id, show, page.next);
    setLost(rows === undefined);
    if (rows) setPage({ of, items: [...page.items, ...rows.items], next: rows.next });
  }
  return { page: page?.of === of ? page : undefined, lost, more };
}

const STATES: Column<Row> = {
  id: 'state',
  head: 'State',
  cell: ({ state }) => <State mark={ROW_WORDS[state][0]}>{ROW_WORDS[state][1]}</State>,
};
const columnsOf = (run: ImportView): readonly Column<Row>[] => [
  { id: 'number', head: 'Row', cell: ({ number }) => <>Row {figure(number)}</> },
  STATES,
  { id: 'says', head: 'What it would make, or what is wrong', cell: (row) => <Says row={row} /> },
  { id: 'cells', head: 'As it stands in the file', cell: (row) => <CellsOf row={row} run={run} />, wideOnly: true },
];

function Says({ row }: { row: Row }) {
  const lines = row.faults.length > 0 ? row.faults.map(({ text }) => text) : row.makes;
  if (row.state === 'known') return <>Nothing new in it.</>;
  if (row.state === 'decide') return <>It waits for an answer above.</>;
  return (
    <ul className={css['says']}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

function CellsOf({ row, run }: { row: Row; run: ImportView }) {
  const filled = run.columns.flatMap(({ heading }, at) => {
    const cell = row.cells[at] ?? '';
    return cell === '' ? [] : [`${heading}: ${cell}`];
  });
  return <p className={css['cells']}>{filled.join(' · ')}</p>;
}

/** Every row with what it would make, or what is wrong with it and what would be right. */
export function Report({ run }: { run: ImportView }) {
  const [chosen, setChosen] = useState<Shown>();
  const show = chosen ?? firstShown(run.counts);
  const { page, lost, more } = useRows(run, show);
  const parts = [
    { value: 'all' as const, text: 'All', count: run.counts.rows },
    ...ROW_ORDER.filter((state) => run.counts[state] > 0).map((state) => ({
      value: state,
      text: ROW_WORDS[state][1],
      count: run.counts[state],
    })),
  ];
  return (
    <section className={css['list']} aria-label="Rows">
      <Segment<Shown> label="Rows to show" parts={parts} value={show} onChange={setChosen} />
      {lost && <p role="status">The rows could not be fetched. They come when the connection is back.</p>}
      {page ? (
        <Table
          caption="Rows of the file"
          columns={columnsOf(run)}
          rows={page.items}
          keyOf={({ number }) => number}
          empty={<p>No row is in this state.</p>}
        />
      ) : (
        !lost && <p className={css['quiet']}>Fetching the rows.</p>
      )}
      {page?.next != null && <Button onClick={() => void more()}>Show more rows</Button>}
    </section>
  );
}
