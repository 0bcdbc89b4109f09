'use client';
import type { ParcelView } from '@ullage/contracts';
import { longMomentWords } from '../../../lib/local-time.ts';
import { EmptyState } from '../../../ui/blank.tsx';
import { Button } from '../../../ui/button.tsx';
import buttonCss from '../../../ui/button.module.css';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { cx } from '../../../ui/cx.ts';
import { State } from '../../../ui/state.tsx';
import { Table, type Column } from '../../../ui/table.tsx';
import { tell } from '../../../ui/toast.tsx';
import { useAct } from '../../../lib/use-act.ts';
import { Part } from '../settings-page.tsx';
import { Progress } from './progress.tsx';
import { isUnderWay, sizeWords, stepWords } from './words.ts';
import settingsCss from '../settings.module.css';
import css from './leaving.module.css';

function ExportState({ parcel }: { parcel: ParcelView }) {
  if (isUnderWay(parcel)) return <Progress words={stepWords(parcel)} done={parcel.done} total={parcel.total} />;
  if (parcel.state === 'failed')
    return (
      <>
        <State mark="late">Not made</State>
        <small>{parcel.found[0]?.detail ?? 'Ask for it again.'}</small>
      </>
    );
  return (
    <>
      {parcel.expiresAt === null ? <State mark="hold">Expired</State> : <State mark="fine">Ready</State>}
      <details className={css['sum']}>
        <summary>SHA-256</summary>
        <code>{parcel.hash}</code>
      </details>
    </>
  );
}

const UNTIL: Readonly<Partial<Record<ParcelView['state'], string>>> = { done: 'gone', failed: 'never' };

function columnsOf(timeZone: string, mayLeave: boolean): Column<ParcelView>[] {
  const columns: Column<ParcelView>[] = [
    {
      id: 'asked',
      head: 'Asked for',
      cell: ({ askedAt, askedBy }) => (
        <>
          {longMomentWords(askedAt, timeZone)}
          <small>by {askedBy}</small>
        </>
      ),
    },
    { id: 'state', head: 'State', cell: (parcel) => <ExportState parcel={parcel} /> },
    {
      id: 'size',
      head: 'Size',
      right: true,
      cell: ({ bytes }) => (bytes === null ? <span className="quiet">not known yet</span> : sizeWords(bytes)),
    },
    {
      id: 'until',
      head: 'To be had until',
      cell: ({ state, expiresAt }) =>
        expiresAt !== null && state === 'done' ? (
          longMomentWords(expiresAt, timeZone)
        ) : (
          <span className="quiet">{UNTIL[state] ?? 'a week after it is made'}</span>
        ),
    },
  ];
  if (!mayLeave) return columns;
  return [
    ...columns,
    {
      id: 'acts',
      head: 'Acts',
      cell: ({ id, state, expiresAt, askedAt }) =>
        state === 'done' &&
        expiresAt !== null && (
          <div className={settingsCss['acts']}>
            <a
              className={cx(buttonCss['button'], css['get'])}
              href={`/v1/leaving/exports/${id}/file`}
              download
              aria-label={`Download the file of ${longMomentWords(askedAt, timeZone)}`}
            >
              Download
            </a>
          </div>
        ),
    },
  ];
}

export interface ExportsProps {
  readonly items: readonly ParcelView[];
  readonly mayLeave: boolean;
  readonly timeZone: string;
  readonly onAsked: () => void;
}

/** The files that were made of everything. */
export function Exports({ items, mayLeave, timeZone, onAsked }: ExportsProps) {
  const { busy, problem, act } = useAct();
  const isBeingMade = items.some(isUnderWay);
  async function ask(): Promise<void> {
    const made = await act<{ id: string }>('/v1/leaving/exports', { method: 'POST' });
    if (!made) return;
    tell('The file is being made.', 'done');
    onAsked();
  }
  const button = mayLeave && (
    <Button
      kind="main"
      busy={busy}
      disabledBecause={isBeingMade ? 'A file is being made already.' : undefined}
      onClick={() => void ask()}
    >
      Make the file
    </Button>
  );
  return (
    <Part id="exports" title="Everything in one file">
      <p>
        A zip with a table of each thing for any spreadsheet, all photos, and everything that happened, in its order. No
        password, key or second factor is in it; your customers’ names are, so keep it as you keep your books.
      </p>
      <ProblemSummary problem={problem} fieldOf={() => undefined} />
      {items.length === 0 ? (
        <EmptyState title="No file was made yet." actions={button || undefined} />
      ) : (
        <>
          <Table
            caption="Files of everything"
            rows={items}
            keyOf={({ id }) => id}
            columns={columnsOf(timeZone, mayLeave)}
            empty={null}
          />
          {button && <div>{button}</div>}
        </>
      )}
    </Part>
  );
}
