'use client';
import { useState } from 'react';
import { missing } from '../../lib/auth.ts';
import { send, type Call } from '../../lib/client.ts';
import type { FieldProblem, Problem } from '../../lib/problem.ts';

/** One act of a dialog at a time, with what stands against it. */
export function useAct() {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function act<T>(path: `/v1/${string}`, options: Call): Promise<T | undefined> {
    setBusy(true);
    const answer = await send<T>(path, options);
    setBusy(false);
    setProblem(answer.ok ? undefined : answer.problem);
    return answer.ok ? answer.data : undefined;
  }
  return { busy, problem, act, refuse: (gaps: readonly FieldProblem[]) => setProblem(missing(gaps)) };
}
