'use client';
import type { ImportDecision, ImportView } from '@ullage/contracts';
import { useState } from 'react';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { RadioCards } from '../../ui/radio-cards.tsx';
import { useAct } from '../../lib/use-act.ts';
import { rowsOf, WHAT_WORDS } from './words.ts';
import css from './import.module.css';

type Ask = ImportView['asks'][number];

const noField = (): undefined => undefined;
const NEW = 'new';
const SKIP = 'skip';

/** A choice's value is `new`, `skip`, or the id of what it is the same as. */
const decisionOf = (value: string): ImportDecision =>
  value === NEW || value === SKIP ? { how: value } : { how: 'same', id: value };

const choicesFor = ({ likes, what, rows }: Ask) => [
  ...likes.map(({ id, name }) => ({ value: id, text: `The same as ${name}` })),
  { value: NEW, text: `Another ${WHAT_WORDS[what].toLowerCase()}`, note: 'It is entered as it stands in the file.' },
  {
    value: SKIP,
    text: 'Leave it out',
    note: rows === 1 ? 'With the row that bears it.' : `With the ${rowsOf(rows)} that bear it.`,
  },
];

/** Names that are nearly those of something else: each is asked about once, whatever the number of its rows. */
export function Decide({ run, onDecided }: { run: ImportView; onDecided: () => void }) {
  const [said, setSaid] = useState<Readonly<Record<string, string>>>({});
  const { busy, problem, act } = useAct();
  const answered = run.asks.filter(({ key }) => said[key] !== undefined);
  async function decide(): Promise<void> {
    const decisions = Object.fromEntries(answered.map(({ key }) => [key, decisionOf(said[key] ?? NEW)]));
    if ((await act(`/v1/imports/${run.id}/decide`, { body: { decisions } })) !== undefined) onDecided();
  }
  return (
    <section className={css['step']} aria-labelledby="nearly">
      <h2 id="nearly">Nearly the same as something else</h2>
      <ProblemSummary problem={problem} fieldOf={noField} />
      <div className={css['asks']}>
        {run.asks.map((ask) => (
          <RadioCards
            key={ask.key}
            name={ask.key}
            label={`${WHAT_WORDS[ask.what]} “${ask.name}”`}
            hint={`In ${rowsOf(ask.rows)}.`}
            choices={choicesFor(ask)}
            value={said[ask.key]}
            onChange={(value) => setSaid({ ...said, [ask.key]: value })}
          />
        ))}
      </div>
      <Actions>
        <Button
          busy={busy}
          disabledBecause={answered.length === 0 ? 'Answer at least one first.' : undefined}
          onClick={() => void decide()}
        >
          Check again with {answered.length === 1 ? 'this answer' : 'these answers'}
        </Button>
      </Actions>
    </section>
  );
}
