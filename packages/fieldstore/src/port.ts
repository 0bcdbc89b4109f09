/** What the core asks of the disk. Everything it does to it goes through one of these transactions. */

/**
 * `meta`: who owns this store, the device, its numbers, the cursor. `outbox`: commands without a final answer, by their
 * number. `sent`: those with one, kept until no backup can be older. `key`: where a command lies, by its id. `local`: what commands changed on this device
 * before the office knew. `record`: what the office last said. `photo`: pictures, whether they have gone or not.
 */
export const TABLES = ['meta', 'outbox', 'sent', 'key', 'local', 'record', 'photo'] as const;
export type Table = (typeof TABLES)[number];

/** Work inside may await these and nothing else: a browser ends a transaction that waits for anything besides. */
export interface Tx {
  get<T>(table: Table, key: string): Promise<T | undefined>;
  put(table: Table, key: string, value: unknown): Promise<void>;
  drop(table: Table, key: string): Promise<void>;
  clear(table: Table): Promise<void>;
  /** In the order of their keys, those after `after`, at most `limit`. */
  list<T>(table: Table, range?: { after?: string; limit?: number }): Promise<T[]>;
}
/** All of a transaction is on the disk when its promise is fulfilled, or nothing of it is. */
export interface Store {
  read<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
  write<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
}
