/** The store on IndexedDB, and the lock that keeps the tabs of one device apart. */
import { openDB } from 'idb';
import type { IDBPTransaction } from 'idb';
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
export async function openIndexedDb(name: string): Promise<IndexedDb> {
  const db = await openDB(name, VERSION, {
    upgrade: (fresh) => TABLES.forEach((table) => fresh.createObjectStore(table)),
    // Another tab with a newer app wants to change the tables: this one lets go.
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  });
  const run = async <T>(mode: 'readonly' | 'readwrite', work: (tx: Tx) => Promise<T>): Promise<T> => {
    // The types of one that only reads leave writing out; here the browser sees to it.
    const tx = db.transaction(TABLES, mode as 'readwrite', { durability: 'strict' });
    // Watched from the start: a request that fails ends the transaction while the work still goes on.
    const over = tx.done.then(
      () => undefined,
      (fault: unknown) => ({ fault }),
    );
    const result = await work(txOf(tx)).catch(async (fault: unknown) => {
      abort(tx);
      await over;
      throw fault;
    });
    const failed = await over;
    if (failed) throw failed.fault;
    return result;
  };
  return {
    read: (work) => run('readonly', work),
    write: (work) => run('readwrite', work),
    close: () => db.close(),
  };
}

type Transaction = IDBPTransaction<unknown, typeof TABLES, 'readwrite'>;
/** One that a failed request has ended is over already. */
function abort(tx: Transaction): void {
  try {
    tx.abort();
  } catch {
    return;
  }
}

function txOf(tx: Transaction): Tx {
  const of = (table: Table) => tx.objectStore(table);
  return {
    get: (table, key) => of(table).get(key),
    put: async (table, key, value) => void (await of(table).put(value, key)),
    drop: (table, key) => of(table).delete(key),
    clear: (table) => of(table).clear(),
    list: (table, { after, limit } = {}) =>
      of(table).getAll(after === undefined || after === '' ? null : IDBKeyRange.lowerBound(after, true), limit),
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
