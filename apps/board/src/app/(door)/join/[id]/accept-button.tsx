'use client';
import { useState } from 'react';
import { join } from '../../../../lib/auth.ts';
import type { Problem } from '../../../../lib/problem.ts';
import { Button } from '../../../../ui/button.tsx';
import { ProblemSummary } from '../../../../ui/problem-summary.tsx';
import css from '../../door.module.css';

export function AcceptButton({ id, firm }: { id: string; firm: string }) {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function accept(): Promise<void> {
    setBusy(true);
    const answer = await join(id);
    if (answer.ok) return location.assign('/');
    setProblem(answer.problem);
    setBusy(false);
  }
  return (
    <div className={css['fields']}>
      <ProblemSummary problem={problem} fieldOf={() => undefined} />
      <Button kind="main" busy={busy} onClick={() => void accept()}>
        {busy ? 'Joining' : `Join ${firm}`}
      </Button>
    </div>
  );
}
