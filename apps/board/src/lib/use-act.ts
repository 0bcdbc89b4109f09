'use client';
import { useState } from 'react';
import { missing } from './auth.ts';
import { send, type Answer, type Call } from './client.ts';
import type { FieldProblem, Problem } from './problem.ts';

/** One piece of work at a time, with what stands against it; undefined where it was refused. */
export function useWork() {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function run<T>(work: () => Promise<Answer<T>>): Promise<T | undefined> {
    setBusy(true);
    const answer = await work();
    setBusy(false);
    setProblem(answer.ok ? undefined : answer.problem);
    return answer.ok ? answer.data : undefined;
  }
  return { busy, problem, run, refuse: (gaps: readonly FieldProblem[]) => setProblem(missing(gaps)) };
}

/** One act of a dialog at a time, sent to the API. */
export function useAct() {
  const { busy, problem, run, refuse } = useWork();
  const act = <T>(path: `/v1/${string}`, options: Call): Promise<T | undefined> => run(() => send<T>(path, options));
  return { busy, problem, act, refuse };
}
