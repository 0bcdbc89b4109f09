'use client';
import type { ImportView } from '@ullage/contracts';
import { useState, type ReactNode } from 'react';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { useAct } from '../../lib/use-act.ts';
import { rowsOf } from './words.ts';
import css from './import.module.css';

const noField = (): undefined => undefined;

/** What came of it, and taking all of it back. */
export function Ended({
  run,
  acts,
  onUndone,
  another,
}: {
  run: ImportView;
  acts: boolean;
  onUndone: () => void;
  another: ReactNode;
}) {
  const { busy, problem, act } = useAct();
  const [sure, setSure] = useState(false);
  const { done, failed, kept } = run.counts;
  async function undo(): Promise<void> {
    const undone = await act(`/v1/imports/${run.id}/undo`, { body: {} });
    setSure(false);
    if (undone !== undefined) onUndone();
  }
  return (
    <section className={css['step']} aria-label="What came of it">
      <ProblemSummary problem={problem} fieldOf={noField} />
      {run.problem && <p className={css['said']}>{run.problem}</p>}
      <p className={css['claim']}>
        {run.state === 'undone' ? 'All of it is taken back.' : `${rowsOf(done + kept)} entered.`}
        {failed > 0 && ` ${rowsOf(failed)} refused: each says why.`}
      </p>
      {sure ? (
        <div className={css['sure']} role="group" aria-label="Take it back">
          <p>Everything this import entered goes from the lists; the books get an entry against each of its entries.</p>
          <Actions>
            <Button kind="danger" autoFocus busy={busy} onClick={() => void undo()}>
              Take it back
            </Button>
            <Button onClick={() => setSure(false)}>Leave it</Button>
          </Actions>
        </div>
      ) : (
        <Actions>
          {another}
          {acts && run.state === 'done' && done + kept > 0 && (
            <Button onClick={() => setSure(true)}>Take it back</Button>
          )}
        </Actions>
      )}
    </section>
  );
}
