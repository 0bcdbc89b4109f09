'use client';
import { ImportView } from '@ullage/contracts';
import type { Route } from 'next';
import { useEffect, useRef, useState } from 'react';
import { call } from '../../lib/client.ts';
import { useLive } from '../../lib/use-live.ts';
import office from '../../office/office.module.css';
import { ErrorState } from '../../ui/blank.tsx';
import { ButtonLink } from '../../ui/button-link.tsx';
import { Checked } from './checked.tsx';
import { ColumnsForm } from './columns-form.tsx';
import { Decide } from './decide.tsx';
import { Ended } from './ended.tsx';
import { Report } from './report.tsx';
import { KIND_WORDS, progressOf, rowsOf, STATE_WORDS } from './words.ts';
import css from './import.module.css';

const IMPORT_PATH = '/import' as Route;

/** One file from its columns to its end. What the server says of it decides what is shown. */
export function ImportScreen({ first, acts }: { first: ImportView; acts: boolean }) {
  const fetchAgain = async (): Promise<ImportView> => {
    const answer = await call<unknown>(`/v1/imports/${first.id}`);
    if (!answer.ok) throw new Error(answer.problem.title);
    return ImportView.parse(answer.data);
  };
  const { data: run, refresh } = useLive(first, fetchAgain);
  const [columns, setColumns] = useState(false);
  // A small file is read before this page listens: what happened between the two is fetched once.
  const ask = useRef(refresh);
  useEffect(() => ask.current(), []);
  const isMatching = run.state === 'read' || (run.state === 'checked' && columns);
  return (
    <main className={office['page']}>
      <header className={office['head']}>
        <h1 className={css['name']}>{run.fileName}</h1>
        <ul className={office['facts']}>
          <li>{KIND_WORDS[run.kind]}</li>
          {run.counts.rows > 0 && <li>{rowsOf(run.counts.rows)}</li>}
          <li>
            <b role="status">{STATE_WORDS[run.state]}</b>
          </li>
        </ul>
      </header>
      {isMatching && acts ? (
        <ColumnsForm
          key={run.state}
          run={run}
          onMatched={() => {
            setColumns(false);
            refresh();
          }}
        />
      ) : (
        <Step run={run} acts={acts} refresh={refresh} onColumns={() => setColumns(true)} />
      )}
    </main>
  );
}

interface StepProps {
  readonly run: ImportView;
  readonly acts: boolean;
  readonly refresh: () => void;
  readonly onColumns: () => void;
}
function Step(props: StepProps) {
  const { run } = props;
  switch (run.state) {
    case 'reading':
      return <Working text="The file is being read." />;
    case 'checking':
      return <Working text="Every row is being checked." />;
    case 'unreadable':
      return (
        <ErrorState title={run.problem ?? 'The file could not be read.'} actions={<Another />}>
          <p>Nothing of it was entered.</p>
        </ErrorState>
      );
    case 'running':
    case 'undoing':
      return <Moving run={run} />;
    case 'read':
    case 'checked':
    case 'done':
    case 'undone':
      return <Waiting {...props} />;
  }
}

/** The rows, with what a person can do now above them. */
function Waiting({ run, acts, refresh, onColumns }: StepProps) {
  return (
    <>
      {run.state === 'checked' && <Checked run={run} acts={acts} onStarted={refresh} onColumns={onColumns} />}
      {run.state === 'checked' && acts && run.asks.length > 0 && <Decide run={run} onDecided={refresh} />}
      {(run.state === 'done' || run.state === 'undone') && (
        <Ended run={run} acts={acts} onUndone={refresh} another={<Another />} />
      )}
      <Report run={run} />
    </>
  );
}

const Another = () => <ButtonLink href={IMPORT_PATH}>Choose another file</ButtonLink>;

function Working({ text }: { text: string }) {
  return (
    <div className={css['step']}>
      <p>{text}</p>
      <progress className={css['bar']} aria-label={text} />
    </div>
  );
}

/** Goes on whether or not anybody watches. */
function Moving({ run }: { run: ImportView }) {
  const progress = progressOf(run);
  if (!progress) return null;
  return (
    <div className={css['step']}>
      <p>
        <b>{progress.text}.</b> You may leave this page: it goes on by itself.
      </p>
      <progress className={css['bar']} value={progress.done} max={progress.of} aria-label={STATE_WORDS[run.state]} />
    </div>
  );
}
