/** Commands as they are made: sealed, numbered and kept together with what they change here. */
import type { Entry } from './entry.ts';
import { keyOf } from './entry.ts';
import { readMeta, writeMeta } from './meta.ts';
import type { Store, Tx } from './port.ts';

export interface NewCommand {
  /** Made when the form was opened: the same press twice is one command. */
  readonly id: string;
  readonly schema: string;
  readonly happenedAt: string;
  readonly body: unknown;
  readonly dependsOn?: readonly string[];
  readonly said: string;
  readonly about?: readonly string[];
  /** What it changes on the device before the office knows, by the key of the thing. */
  readonly local?: Readonly<Record<string, unknown>>;
}
/** A change that a command made here and the office has not been heard to have made. */
export interface LocalChange {
  readonly commandId: string;
  readonly key: string;
  readonly value: unknown;
}

/** Seals a command: number, outbox and what it changes here in one transaction. Known by its id, it is made once. */
export const record = (store: Store, command: NewCommand): Promise<Entry> => store.write((tx) => seal(tx, command));

export async function seal(tx: Tx, command: NewCommand, more: Pick<Entry, 'withdraws'> = {}): Promise<Entry> {
  const known = await findEntry(tx, command.id);
  if (known) return known;
  const device = await readMeta(tx, 'device');
  if (device === undefined) throw new Error('the store has no owner yet: claim it first');
  const deviceSeq = ((await readMeta(tx, 'seq')) ?? 0) + 1;
  const { id, schema, happenedAt, body, dependsOn = [], said, about = [], local = {} } = command;
  const entry: Entry = {
    envelope: { id, schema, device, deviceSeq, happenedAt, dependsOn, body },
    said,
    about,
    state: 'waiting',
    ...more,
  };
  await writeMeta(tx, 'seq', deviceSeq);
  await tx.put('outbox', keyOf(entry), entry);
  await tx.put('key', id, keyOf(entry));
  for (const [key, value] of Object.entries(local))
    await tx.put('local', `${id}|${key}`, { commandId: id, key, value } satisfies LocalChange);
  return entry;
}

/** A command by its id, in the outbox or among what was sent. */
export async function findEntry(tx: Tx, id: string): Promise<Entry | undefined> {
  const key = await tx.get<string>('key', id);
  if (key === undefined) return undefined;
  return (await tx.get<Entry>('outbox', key)) ?? (await tx.get<Entry>('sent', key));
}
