'use client';
import type { CommandAnswer } from '@ullage/contracts';
import type { Route } from 'next';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { recallPath } from '../link-to.ts';
import { useAct } from '../../lib/use-act.ts';

/** The recall that a command opened, or that somebody had opened before for the same source. */
export const recallIn = ({ records }: Pick<CommandAnswer, 'records'>): Route | undefined => {
  const found = records.find(({ kind }) => kind === 'recall');
  return found && recallPath(found.id);
};

/** Opens the recall that begins at a fact, and goes there. */
export function useOpenRecall() {
  const { busy, problem, act } = useAct();
  const router = useRouter();
  const [recallId] = useState(newKey);
  async function open(factId: string): Promise<void> {
    const body = { body: { recallId, factId } };
    const answer = await act<CommandAnswer>('/v1/commands/open-recall', { body });
    const path = answer && recallIn(answer);
    if (path) router.push(path);
  }
  return { busy, problem, open };
}
