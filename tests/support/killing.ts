/** Kills parts of a stack in the middle of whatever is being done, again and again. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Program, Stack } from './stack.ts';

export type Victim = Program | 'database';
export type Killed = Record<Victim, number>;
/** A different moment each time, and the same ones in each run. */
const pauseMs = (round: number): number => 250 + ((round * 311) % 900);

/**
 * Does the work while the victims are killed one after the other, each once everything answers again. The stack is whole
 * afterwards; `killed` says how often each fell, so that a test can be sure that something did.
 */
export async function whileKilling<T>(
  stack: Stack,
  victims: readonly [Victim, ...Victim[]],
  work: () => Promise<T>,
): Promise<{ done: T; killed: Killed }> {
  const killed: Killed = { api: 0, worker: 0, database: 0 };
  let over = false;
  const killer = async (): Promise<void> => {
    for (let round = 0; !over; round += 1) {
      await stack.untilReady();
      await sleep(pauseMs(round));
      const victim = victims[round % victims.length] ?? victims[0];
      if (victim === 'database') await stack.killDatabase();
      else await stack.killAndRestart(victim);
      killed[victim] += 1;
    }
  };
  const killing = killer();
  try {
    return { done: await work(), killed };
  } finally {
    over = true;
    await killing;
    await stack.untilReady();
  }
}
