/** What has a final answer is kept for a while all the same: an office restored from a backup has to be told it again. */
import { again, keyOf } from './entry.ts';
import type { Entry } from './entry.ts';
import type { LocalChange } from './record.ts';
import type { Tx } from './port.ts';

/** An entry among what was sent, and since when by the office's clock; null while that has not been heard yet. */
export interface SentEntry extends Entry {
  readonly settledAt: string | null;
}
/** Common practice: no backup older than this is restored without a word to the people in the field. */
export const KEPT_DAYS = 30;
const KEPT_MS = KEPT_DAYS * 86_400_000;

/** @param at by the office's clock; this device's own may be a day off */
export async function moveToSent(tx: Tx, entry: Entry, at: string | undefined): Promise<void> {
  await tx.drop('outbox', keyOf(entry));
  await tx.put('sent', keyOf(entry), { ...entry, settledAt: at ?? null } satisfies SentEntry);
}

/** Everything back into the outbox, in its own order. */
export async function sayAllAgain(tx: Tx): Promise<void> {
  for (const table of ['sent', 'outbox'] as const)
    for (const entry of await tx.list<Entry & { settledAt?: string | null }>(table)) {
      const { settledAt: _, ...kept } = entry;
      await tx.put('outbox', keyOf(entry), again(kept));
    }
  await tx.clear('sent');
}

/** Forgets what no backup can lack any more, the oldest first, a few at a time. */
export async function forgetOld(tx: Tx, now: string): Promise<void> {
  for (const entry of await tx.list<SentEntry>('sent', { limit: 50 })) {
    if (entry.settledAt === null) {
      await tx.put('sent', keyOf(entry), { ...entry, settledAt: now } satisfies SentEntry);
      continue;
    }
    if (Date.parse(now) - Date.parse(entry.settledAt) < KEPT_MS) return;
    await tx.drop('sent', keyOf(entry));
    await tx.drop('key', entry.envelope.id);
  }
}

/** What commands changed here is dropped once they are settled and the office's own records have come. */
export async function dropLocal(tx: Tx): Promise<void> {
  for (const change of await tx.list<LocalChange>('local')) {
    const key = await tx.get<string>('key', change.commandId);
    const waits = key !== undefined && (await tx.get<Entry>('outbox', key)) !== undefined;
    if (!waits) await tx.drop('local', `${change.commandId}|${change.key}`);
  }
}
