'use client';
import type { ImportView } from '@ullage/contracts';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { useAct } from '../../lib/use-act.ts';
import { foundOf, rowsOf } from './words.ts';
import css from './import.module.css';

const noField = (): undefined => undefined;

/** What was found, and the way on from it. */
export function Checked({
  run,
  acts,
  onStarted,
  onColumns,
}: {
  run: ImportView;
  acts: boolean;
  onStarted: () => void;
  onColumns: () => void;
}) {
  const { busy, problem, act } = useAct();
  const { fine, wrong } = run.counts;
  async function start(): Promise<void> {
    if ((await act(`/v1/imports/${run.id}/run`, { body: {} })) !== undefined) onStarted();
  }
  return (
    <section className={css['step']} aria-label="What was found">
      <ProblemSummary problem={problem} fieldOf={noField} />
      {run.problem && <p className={css['said']}>{run.problem}</p>}
      <p className={css['claim']}>{foundOf(run.counts)}</p>
      {wrong > 0 && (
        <p>
          What is not right is left out: put it right in the file and import it again, and what is entered is known.
        </p>
      )}
      {acts && (
        <Actions>
          <Button
            kind="main"
            busy={busy}
            disabledBecause={fine === 0 ? 'No row would make anything.' : undefined}
            onClick={() => void start()}
          >
            {fine === 0 ? 'Enter them' : `Enter ${rowsOf(fine)}`}
          </Button>
          <Button onClick={onColumns}>Change the columns</Button>
        </Actions>
      )}
    </section>
  );
}
