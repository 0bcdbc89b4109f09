'use client';
import { useState } from 'react';
import type { Answer } from '../../lib/client.ts';
import { errorsByField, type Problem } from '../../lib/problem.ts';

/** One act at the sign-in service at a time, with what stands against it. */
export function useAuthAct() {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  async function act<T>(work: () => Promise<Answer<T>>): Promise<T | undefined> {
    setBusy(true);
    const answer = await work();
    setBusy(false);
    setProblem(answer.ok ? undefined : answer.problem);
    return answer.ok ? answer.data : undefined;
  }
  return { busy, problem, errors: errorsByField(problem), act };
}
