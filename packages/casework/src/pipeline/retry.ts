import { retryable } from '@ullage/database';
import { setTimeout as sleep } from 'node:timers/promises';

const TRIES = 8;
const FIRST_PAUSE_MS = 15;

/**
 * Runs a transaction again after a deadlock, a serialisation failure or a lost connection. Every command carries an
 * id and is applied once, so that even a COMMIT whose answer was lost may be repeated.
 */
export async function withRetry<T>(work: () => Promise<T>): Promise<T> {
  for (let tried = 1; ; tried++) {
    try {
      return await work();
    } catch (error) {
      if (tried === TRIES || retryable(error) === 'no') throw error;
      // Jitter keeps two that met once from meeting again; chance has no part in the result.
      await sleep(FIRST_PAUSE_MS * 2 ** (tried - 1) * (0.5 + Math.random()));
    }
  }
}
