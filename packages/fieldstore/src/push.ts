/** Sends the outbox in batches, and takes in every answer together with what it changes. */
import type { CommandAnswer, Problem, PushAnswer } from '@ullage/contracts';
import { keyOf, settle } from './entry.ts';
import type { Entry, SealedEnvelope, Settled } from './entry.ts';
import { readMeta, writeMeta } from './meta.ts';
import { NotTaken, sendPhotosAgain } from './photos.ts';
import type { Store, Tx } from './port.ts';
import { findEntry } from './record.ts';
import { moveToSent, sayAllAgain } from './sent.ts';

export interface Batch {
  readonly sentAt: string;
  readonly device: string;
  readonly commands: readonly SealedEnvelope[];
}
export const BATCH = 200;

/** The next of the outbox by the device's own numbers, whatever their state. */
const nextRows = (store: Store, after: string): Promise<Entry[]> =>
  store.read((tx) => tx.list<Entry>('outbox', { after, limit: BATCH }));

/** One pass over the outbox, each command sent once. @throws what the line throws; what was answered by then is kept */
export async function pushAll(
  store: Store,
  { push, now }: { push: (batch: Batch) => Promise<PushAnswer>; now: () => string },
): Promise<void> {
  const send = async (entries: readonly Entry[]): Promise<void> => {
    const [first] = entries;
    if (!first) return;
    try {
      const commands = entries.map(({ envelope }) => envelope);
      const answer = await push({ sentAt: now(), device: first.envelope.device, commands });
      await store.write((tx) => takeAnswers(tx, entries, answer));
    } catch (fault) {
      if (!(fault instanceof NotTaken)) throw fault;
      // The batch as a whole was not taken, for being too large perhaps: the one that is to blame is found by halves.
      if (entries.length === 1) return store.write((tx) => refuseHere(tx, first, fault.problem));
      const half = Math.ceil(entries.length / 2);
      await send(entries.slice(0, half));
      await send(entries.slice(half));
    }
  };
  for (let after = ''; ;) {
    const rows = await nextRows(store, after);
    const last = rows.at(-1);
    if (!last) return;
    // One that waits for another goes too: the office holds it until it can.
    await send(rows.filter(({ state }) => state === 'waiting'));
    after = keyOf(last);
  }
}

const refuseHere = (tx: Tx, entry: Entry, problem: Problem): Promise<void> =>
  tx.put('outbox', keyOf(entry), { ...entry, state: 'refused', problem, onlyHere: true } satisfies Entry);

async function takeAnswers(tx: Tx, sent: readonly Entry[], { answers, epoch }: PushAnswer): Promise<void> {
  const known = await readMeta(tx, 'epoch');
  if (known !== undefined && epoch < known) return; // from before the restore: it may be lost again
  await noticeRestore(tx, epoch);
  const at = await readMeta(tx, 'officeTime');
  for (const [place, { envelope }] of sent.entries()) {
    const answer = answerTo(envelope, { answers, place, all: sent.length });
    const entry = answer && (await findEntry(tx, envelope.id));
    if (entry) await takeSettled(tx, settle(entry, answer), at);
  }
}

/** One whose head the office could not read is answered without its id, in its place. */
function answerTo(
  { id }: SealedEnvelope,
  { answers, place, all }: { answers: readonly CommandAnswer[]; place: number; all: number },
): CommandAnswer | undefined {
  const byId = answers.find((answer) => answer.id === id);
  if (byId || answers.length !== all) return byId;
  return answers[place]?.id === '' ? answers[place] : undefined;
}

/** Puts an entry where its answer says; the two halves of a withdrawal may be answered in either order. */
export async function takeSettled(tx: Tx, { final, entry }: Settled, at: string | undefined): Promise<void> {
  if (!final && !(await isTakenBack(tx, entry))) return tx.put('outbox', keyOf(entry), entry);
  await moveToSent(tx, entry, at);
  if (entry.withdraws === undefined) return;
  const taken = await findEntry(tx, entry.withdraws);
  if (taken?.state === 'withdrawing') await moveToSent(tx, taken, at);
}
/** Refused, and the word that takes it back has been taken. */
async function isTakenBack(tx: Tx, { state, withdrawnBy }: Entry): Promise<boolean> {
  if (state !== 'withdrawing' || withdrawnBy === undefined) return false;
  const key = await tx.get<string>('key', withdrawnBy);
  return key !== undefined && (await tx.get<Entry>('sent', key)) !== undefined;
}

/** Another epoch than the one known: the office came back from a backup and may lack anything that was said since. */
export async function noticeRestore(tx: Tx, epoch: number): Promise<void> {
  const known = await readMeta(tx, 'epoch');
  if (known === epoch) return;
  await writeMeta(tx, 'epoch', epoch);
  if (known === undefined) return;
  await sayAllAgain(tx);
  await sendPhotosAgain(tx);
}
