import type { Tx } from './port.ts';

/** Where this device has read the office's feed to. */
export interface Cursor {
  readonly epoch: number;
  readonly number: number;
}
/** Whose store this is; a device that two people use has two. */
export interface Owner {
  readonly tenantId: string;
  readonly userId: string;
}
interface Meta {
  readonly owner: Owner;
  readonly device: string;
  /** The last number given to a command. */
  readonly seq: number;
  /** Raised by the office when it was restored from a backup. */
  readonly epoch: number;
  readonly cursor: Cursor;
  /** The office's clock when it was last heard, as ISO 8601; this device's own may be wrong. */
  readonly officeTime: string;
}
export const readMeta = <K extends keyof Meta>(tx: Tx, key: K): Promise<Meta[K] | undefined> => tx.get('meta', key);
export const writeMeta = <K extends keyof Meta>(tx: Tx, key: K, value: Meta[K]): Promise<void> =>
  tx.put('meta', key, value);
