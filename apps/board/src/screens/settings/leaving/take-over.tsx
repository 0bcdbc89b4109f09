'use client';
import type { LeavingView, ParcelView } from '@ullage/contracts';
import { useState } from 'react';
import { longMomentWords } from '../../../lib/local-time.ts';
import { offlineProblem, type Problem } from '../../../lib/problem.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { State } from '../../../ui/state.tsx';
import { Table, type Column } from '../../../ui/table.tsx';
import { Part } from '../settings-page.tsx';
import { Progress } from './progress.tsx';
import { sendFile } from './send-file.ts';
import { isUnderWay, sizeWords, stepWords } from './words.ts';
import css from './leaving.module.css';

type Found = ParcelView['found'][number];
const COLUMNS: Column<Found>[] = [
  { id: 'where', head: 'Where', cell: ({ where }) => where },
  { id: 'detail', head: 'What', cell: ({ detail }) => detail },
];

function Outcome({ parcel, timeZone }: { parcel: ParcelView; timeZone: string }) {
  const { state, found, from, endedAt } = parcel;
  const of = from && `${from.name}, as of ${longMomentWords(from.madeAt, timeZone)}`;
  if (state === 'done' && found.length === 0)
    return (
      <>
        <State mark="fine">Equal books</State>
        <p>
          Taken over from {of}: every account, duty and cylinder stands as it stood there. Invite your people under
          their e-mail addresses: each becomes again who they were.
        </p>
      </>
    );
  return (
    <>
      <State mark="late">
        {state === 'refused' ? 'Not taken over' : state === 'failed' ? 'Broken off' : 'Taken over, and not equal'}
      </State>
      <p>
        {state === 'refused'
          ? 'Nothing of the file was applied.'
          : `${of ?? 'The file'}${endedAt === null ? '' : `, ended ${longMomentWords(endedAt, timeZone)}`}. What differs:`}
      </p>
      {found.length > 0 && (
        <Table
          caption="What was found"
          rows={found}
          keyOf={(one) => `${one.where} ${one.detail}`}
          columns={COLUMNS}
          empty={null}
        />
      )}
    </>
  );
}

function ChooseFile({ maxBytes, onBegun }: { maxBytes: number; onBegun: () => void }) {
  const [file, setFile] = useState<File>();
  const [share, setShare] = useState<number>();
  const [problem, setProblem] = useState<Problem>();
  async function take(chosen: File): Promise<void> {
    setShare(0);
    setProblem(undefined);
    const begun = await sendFile(chosen, setShare).catch(() => undefined);
    setShare(undefined);
    if (begun?.ok) onBegun();
    else setProblem(begun?.problem ?? offlineProblem());
  }
  const isTooLarge = file !== undefined && file.size > maxBytes;
  return (
    <>
      <ProblemSummary problem={problem} fieldOf={() => ({ id: 'take-over-file', label: 'File' })} />
      <div className={css['file']}>
        <label htmlFor="take-over-file">The zip as it was downloaded</label>
        <input
          id="take-over-file"
          type="file"
          accept=".zip,application/zip"
          disabled={share !== undefined}
          onChange={({ target }) => setFile(target.files?.[0])}
        />
      </div>
      {share === undefined ? (
        <div>
          <Button
            disabledBecause={
              file === undefined
                ? 'Choose the file first.'
                : isTooLarge
                  ? `The file is larger than ${sizeWords(maxBytes)}.`
                  : undefined
            }
            onClick={() => file && void take(file)}
          >
            Take it over
          </Button>
        </div>
      ) : (
        <Progress words="Sending the file" done={Math.round(share * 100)} total={100} />
      )}
    </>
  );
}

export interface TakeOverProps {
  readonly view: LeavingView;
  readonly mayLeave: boolean;
  readonly timeZone: string;
  readonly onBegun: () => void;
}

/** What became of an upload that was never begun is nobody's concern. */
function shownOf({ takeOver, isFresh }: LeavingView): ParcelView | null {
  if (takeOver?.state === 'arriving') return null;
  return takeOver?.state === 'failed' && isFresh ? null : takeOver;
}

function UnderWay({ parcel }: { parcel: ParcelView }) {
  return (
    <>
      <Progress words={stepWords(parcel)} done={parcel.done} total={parcel.total} />
      <p className="quiet">Nobody can write here until it has ended. You may close this page.</p>
    </>
  );
}

/** A file of before, told again where nothing was done yet. */
export function TakeOver({ view, mayLeave, timeZone, onBegun }: TakeOverProps) {
  const { isFresh, maxBytes } = view;
  const shown = shownOf(view);
  const isWorking = isUnderWay(shown);
  return (
    <Part id="take-over" title="Take a file over">
      <p>
        Everything that the file says has happened is done again here, by the same rules and with the dates of then, and
        the books are compared at the end. The file is looked through first: if anything is wrong with it, nothing is
        applied.
      </p>
      <div aria-live="polite">{shown && isWorking && <UnderWay parcel={shown} />}</div>
      {shown && !isWorking && <Outcome parcel={shown} timeZone={timeZone} />}
      {mayLeave && isFresh && !isWorking && <ChooseFile maxBytes={maxBytes} onBegun={onBegun} />}
      {!isFresh && !shown && (
        <p className="quiet">There is work here already. A file is taken over in a firm that is founded for it.</p>
      )}
    </Part>
  );
}
