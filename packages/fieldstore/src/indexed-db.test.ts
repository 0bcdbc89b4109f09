import 'fake-indexeddb/auto';
import { describe, expect, test } from 'vitest';
import { openIndexedDb, tabLock } from './indexed-db.ts';
import { claim, record, signOut, TABLES, unsent } from './index.ts';
import type { Entry } from './index.ts';

let disks = 0;
const newDisk = (): string => `field-${(disks += 1)}`;
const opened = (disk = newDisk()) => openIndexedDb(disk);
const ada = { tenantId: 'tarn', userId: 'ada' };
const aNote = (id: string) => ({
  id,
  schema: 'record-safety',
  happenedAt: '2026-05-04T14:00:00Z',
  body: { id },
  said: 'Safe',
});

describe('the store on IndexedDB', () => {
  test('a transaction that fails leaves nothing behind, in any table', async () => {
    const store = await opened();
    const failed = store.write(async (tx) => {
      for (const table of TABLES) await tx.put(table, 'a', 1);
      throw new Error('battery');
    });
    await expect(failed).rejects.toThrow('battery');
    for (const table of TABLES) expect(await store.read((tx) => tx.list(table))).toEqual([]);
  });

  test('lists in the order of keys, after a key, so many', async () => {
    const store = await opened();
    await store.write(async (tx) => {
      for (const key of ['3', '1', '2', '4']) await tx.put('sent', key, key);
    });
    expect(await store.read((tx) => tx.list('sent', { after: '1', limit: 2 }))).toEqual(['2', '3']);
    expect(await store.read((tx) => tx.list('sent'))).toEqual(['1', '2', '3', '4']);
  });

  test('is whole when it is opened again, and two tabs never take the same number', async () => {
    const disk = newDisk();
    const [one, two] = [await opened(disk), await opened(disk)];
    expect(await claim(one, ada, () => 'device')).toBe(true);
    await Promise.all(Array.from({ length: 20 }, (_, at) => record(at % 2 ? one : two, aNote(`note-${at}`))));
    one.close();
    two.close();
    const again = await opened(disk);
    const entries = await again.read((tx) => tx.list<Entry>('outbox'));
    expect(entries.map(({ envelope }) => envelope.deviceSeq)).toEqual(Array.from({ length: 20 }, (_, at) => at + 1));
    expect(new Set(entries.map(({ envelope }) => envelope.id)).size).toBe(20);
  });

  test('photos come back byte for byte', async () => {
    const store = await opened();
    const bytes = Uint8Array.from({ length: 300_000 }, (_, at) => at % 251);
    await store.write((tx) => tx.put('photo', 'a', { bytes }));
    expect(await store.read((tx) => tx.get('photo', 'a'))).toEqual({ bytes });
  });

  test('asks before unsent work is left behind, and is empty after it', async () => {
    const store = await opened();
    await claim(store, ada, () => 'device');
    await record(store, aNote('note'));
    expect(await signOut(store, { leaveUnsent: false })).toMatchObject({ commands: [{ said: 'Safe' }], photos: 0 });
    expect((await unsent(store)).commands).toHaveLength(1);
    expect(await signOut(store, { leaveUnsent: true })).toBe('out');
    for (const table of TABLES) expect(await store.read((tx) => tx.list(table))).toEqual([]);
  });
});

test('the lock of the tabs lets one in at a time', async () => {
  let inside = 0;
  const alone = tabLock('field', navigator.locks);
  const entered = Array.from({ length: 5 }, () =>
    alone(async () => {
      inside += 1;
      const together = inside;
      await new Promise((resolve) => setTimeout(resolve, 2));
      inside -= 1;
      return together;
    }),
  );
  expect(await Promise.all(entered)).toEqual([1, 1, 1, 1, 1]);
});
