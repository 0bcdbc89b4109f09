/** Reads what changed for this person, by the feed's cursor; what left their scope goes from the device. */
import type { PullAnswer, PullAsked } from '@ullage/contracts';
import { stand } from './entry.ts';
import type { Entry } from './entry.ts';
import { readMeta, writeMeta } from './meta.ts';
import type { Store, Tx } from './port.ts';
import { noticeRestore, takeSettled } from './push.ts';
import { findEntry } from './record.ts';
import { dropLocal, forgetOld } from './sent.ts';

/** A visit as the office last told it. */
export interface KeptRecord {
  readonly id: string;
  readonly value: unknown;
  /** The office's feed when it was read: it holds every change up to there, and perhaps later ones. */
  readonly epoch: number;
  readonly number: number;
  /** It is not this person's any more; it stays while something about it is unsent. */
  readonly left?: true;
}
export interface PullOffice {
  pull(asked: PullAsked): Promise<PullAnswer>;
  /** A visit whole; undefined when it is not there. */
  readVisit(id: string): Promise<unknown>;
}
const NOWHERE = { epoch: 0, number: 0 };
const ASKED_AT_ONCE = 500;

/** @throws what the line throws; records read by then are kept, and the cursor moves only with the last of them */
export async function pullAll(store: Store, office: PullOffice): Promise<void> {
  for (let more = true; more;) {
    const asked = await store.read(questionOf);
    const page = await office.pull(asked);
    for (const id of await store.read((tx) => stale(tx, page))) {
      const value = await office.readVisit(id);
      if (value !== undefined) await store.write((tx) => keepRecord(tx, { id, value, ...headOf(page) }));
    }
    more = (await store.write((tx) => takePage(tx, asked, page))) && page.more;
  }
}

const headOf = ({ epoch, number }: PullAnswer) => ({ epoch, number });

async function questionOf(tx: Tx): Promise<PullAsked> {
  const open = (await tx.list<Entry>('outbox')).filter(({ state, onlyHere }) => state !== 'waiting' && !onlyHere);
  return {
    ...((await readMeta(tx, 'cursor')) ?? NOWHERE),
    commandIds: open.slice(0, ASKED_AT_ONCE).map(({ envelope }) => envelope.id),
  };
}

/** Visits in scope that are not here, or are older here than their last change. */
async function stale(tx: Tx, page: PullAnswer): Promise<string[]> {
  const changed = new Set(page.changed);
  const ids: string[] = [];
  for (const id of page.scope) {
    const have = await tx.get<KeptRecord>('record', id);
    const fits = have?.epoch === page.epoch && have.left === undefined;
    if (!fits || (changed.has(id) && have.number < page.number)) ids.push(id);
  }
  return ids;
}

async function keepRecord(tx: Tx, record: KeptRecord): Promise<void> {
  const have = await tx.get<KeptRecord>('record', record.id);
  // Another tab may have read it later.
  if (have && have.epoch === record.epoch && have.number > record.number) return;
  await tx.put('record', record.id, record);
}

/** @returns false when it was not taken: it is from before a restore, or another tab has gone on meanwhile */
async function takePage(tx: Tx, asked: PullAsked, page: PullAnswer): Promise<boolean> {
  const cursor = (await readMeta(tx, 'cursor')) ?? NOWHERE;
  if (cursor.epoch !== asked.epoch || cursor.number !== asked.number) return false;
  const known = await readMeta(tx, 'epoch');
  if (known !== undefined && page.epoch < known) return false;
  await noticeRestore(tx, page.epoch);
  await writeMeta(tx, 'officeTime', page.now);
  for (const standing of page.standing) {
    const entry = await findEntry(tx, standing.id);
    // One that was answered or decided on since it was asked about stands as it does now.
    if (entry && entry.state !== 'waiting') await takeSettled(tx, stand(entry, standing), page.now);
  }
  await leaveOthers(tx, page);
  await writeMeta(tx, 'cursor', headOf(page));
  await dropLocal(tx);
  await forgetOld(tx, page.now);
  return true;
}

async function leaveOthers(tx: Tx, { scope }: PullAnswer): Promise<void> {
  const mine = new Set(scope);
  const needed = new Set((await tx.list<Entry>('outbox')).flatMap(({ about }) => about));
  for (const record of await tx.list<KeptRecord>('record')) {
    if (mine.has(record.id)) continue;
    if (needed.has(record.id)) await tx.put('record', record.id, { ...record, left: true } satisfies KeptRecord);
    else await tx.drop('record', record.id);
  }
}
