/** The store on IndexedDB, and the lock that keeps the tabs of one device apart. */
import { Dexie } from 'dexie';
import type { DexieOptions, Table as DexieTable, Transaction } from 'dexie';
import { TABLES } from './port.ts';
import type { Store, Table, Tx } from './port.ts';

/** By a change of the tables this goes up, with an upgrade that carries what is there over. */
const VERSION = 1;

export interface IndexedDb extends Store {
  close(): void;
}
/**
 * Opens a person's store; one for each person who uses the device. What a transaction wrote is on the disk, and not only
 * with the operating system, when it is over: a battery that dies then takes nothing.
 */
export async function openIndexedDb(
  name: string,
  given?: Pick<DexieOptions, 'indexedDB' | 'IDBKeyRange'>,
): Promise<IndexedDb> {
  const db = new Dexie(name, { ...given, chromeTransactionDurability: 'strict', autoOpen: false });
  db.version(VERSION).stores(Object.fromEntries(TABLES.map((table) => [table, ''])));
  // Another tab with a newer app may want to change the tables: this one lets go.
  db.on('versionchange', () => db.close());
  await db.open();
  const all = TABLES.map((table) => db.table<unknown, string>(table));
  return {
    read: (work) => db.transaction('r', all, (tx) => work(txOf(tx))),
    write: (work) => db.transaction('rw', all, (tx) => work(txOf(tx))),
    close: () => db.close(),
  };
}

function txOf(tx: Transaction): Tx {
  const of = (table: Table): DexieTable<unknown, string> => tx.table(table);
  return {
    get: async <T>(table: Table, key: string) => (await of(table).get(key)) as T | undefined,
    put: async (table, key, value) => void (await of(table).put(value, key)),
    drop: async (table, key) => void (await of(table).delete(key)),
    clear: async (table) => void (await of(table).clear()),
    list: async <T>(table: Table, { after = '', limit = Infinity }: { after?: string; limit?: number } = {}) =>
      (await of(table).where(':id').above(after).limit(limit).toArray()) as T[],
  };
}

/** What is needed of `navigator.locks`. */
export interface Locks {
  request<T>(name: string, work: () => Promise<T>): Promise<T>;
}
/** Runs work while no other tab of this browser runs any under the same name; tabs wait for each other in turn. */
export const tabLock =
  (name: string, locks: Locks) =>
  <T>(work: () => Promise<T>): Promise<T> =>
    locks.request(name, work);
