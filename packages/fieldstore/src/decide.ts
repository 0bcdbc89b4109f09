/** What a person does about a command that was refused. Nothing of it is ever done by the program alone. */
import { isRefusal, keyOf } from './entry.ts';
import type { Entry } from './entry.ts';
import { readMeta } from './meta.ts';
import type { Store, Tx } from './port.ts';
import { findEntry, seal } from './record.ts';
import { moveToSent } from './sent.ts';

export interface Deciding {
  readonly store: Store;
  readonly newId: () => string;
  /** By the device's clock, as ISO 8601. */
  readonly now: () => string;
}
/** A refused command with what hangs on it: they go, or are put right, together. In the order in which they were made. */
export const withDependents = (store: Store, id: string): Promise<readonly Entry[]> =>
  store.read((tx) => hangingOn(tx, id));

async function hangingOn(tx: Tx, id: string): Promise<Entry[]> {
  const ids = new Set([id]);
  const found: Entry[] = [];
  for (const entry of await tx.list<Entry>('outbox')) {
    const { envelope } = entry;
    if (entry.withdrawnBy !== undefined || entry.withdraws !== undefined) continue;
    if (envelope.id !== id && !envelope.dependsOn.some((on) => ids.has(on))) continue;
    ids.add(envelope.id);
    found.push(entry);
  }
  return found;
}

/** What was refused, or is held for what may never come. */
const mayTakeBack = (entry: Entry): boolean =>
  (isRefusal(entry) || entry.state === 'held') && entry.withdraws === undefined;

/** Leaves a refused command to the office, which has it whole; it stays in sight here until it is settled there. */
export const handOver = (store: Store, id: string): Promise<boolean> =>
  store.write(async (tx) => {
    const entry = await findEntry(tx, id);
    // What the office could not read lies nowhere but here.
    if (entry?.state !== 'refused' || entry.onlyHere) return false;
    await tx.put('outbox', keyOf(entry), { ...entry, state: 'handed-over' } satisfies Entry);
    return true;
  });

/**
 * Takes note that the office has left a command out, or that one could not be taken back: unless it was done after all,
 * it then lies with the person as before.
 */
export const dismiss = (store: Store, id: string): Promise<boolean> =>
  store.write(async (tx) => {
    const entry = await findEntry(tx, id);
    if (!entry || !(entry.state === 'left-out' || (entry.withdraws !== undefined && isRefusal(entry)))) return false;
    await moveToSent(tx, entry, await readMeta(tx, 'officeTime'));
    const other = entry.withdraws === undefined ? undefined : await findEntry(tx, entry.withdraws);
    if (other?.state !== 'withdrawing') return true;
    const { withdrawnBy: _, ...asBefore } = other;
    await tx.put('outbox', keyOf(other), { ...asBefore, state: 'refused' } satisfies Entry);
    return true;
  });

/** Takes a refused command back, and all that hangs on it. @returns the commands taken back */
export const withdraw = (deciding: Deciding, id: string): Promise<readonly Entry[]> =>
  deciding.store.write(async (tx) => {
    const entry = await findEntry(tx, id);
    if (!entry || !mayTakeBack(entry)) return [];
    const all = await hangingOn(tx, id);
    for (const one of all) await takeBack(tx, deciding, one);
    return all;
  });

/**
 * Sends a refused command's matter again under a new id, with a new body, and all that hung on the old one after it. The
 * new one waits until the old one is taken back for certain, so that the two can never both be done.
 */
export const putRight = (
  deciding: Deciding,
  id: string,
  right: { readonly body: unknown; readonly happenedAt?: string; readonly said?: string },
): Promise<Entry | undefined> =>
  deciding.store.write(async (tx) => {
    const entry = await findEntry(tx, id);
    if (!entry || !mayTakeBack(entry)) return undefined;
    const renamed = new Map<string, string>();
    let first: Entry | undefined;
    for (const old of await hangingOn(tx, id)) {
      const takenBackBy = await takeBack(tx, deciding, old);
      const newId = deciding.newId();
      const { schema, happenedAt, body, dependsOn } = old.envelope;
      const made = await seal(tx, {
        id: newId,
        schema,
        happenedAt,
        body,
        said: old.said,
        about: old.about,
        ...(old.envelope.id === id ? right : {}),
        dependsOn: [
          ...dependsOn.map((on) => renamed.get(on) ?? on),
          ...(takenBackBy === undefined ? [] : [takenBackBy]),
        ],
      });
      renamed.set(old.envelope.id, newId);
      first ??= made;
    }
    return first;
  });

/** @returns the id of the command that takes it back; none where the office never kept it */
async function takeBack(tx: Tx, { newId, now }: Deciding, entry: Entry): Promise<string | undefined> {
  if (entry.onlyHere) {
    await tx.drop('outbox', keyOf(entry));
    await tx.drop('key', entry.envelope.id);
    return undefined;
  }
  const { id } = entry.envelope;
  const made = await seal(
    tx,
    {
      id: newId(),
      schema: 'withdraw-command',
      happenedAt: now(),
      body: { commandId: id },
      said: `Withdrawn: ${entry.said}`,
      about: entry.about,
    },
    { withdraws: id },
  );
  // One that was never sent goes first all the same: that it never left cannot be known.
  const state = entry.state === 'waiting' ? 'waiting' : 'withdrawing';
  await tx.put('outbox', keyOf(entry), { ...entry, state, withdrawnBy: made.envelope.id } satisfies Entry);
  return made.envelope.id;
}
