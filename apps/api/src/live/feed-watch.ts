/**
 * Notices that a contractor's records changed: one listening connection per process, and a look at the counters every
 * few seconds for when a notification was lost. It tells that something changed, never what.
 */
import type { Database } from '@ullage/database';
import pg from 'pg';
import type { Log } from '../http/log.ts';
import { readCursor } from './cursor.ts';
import type { Cursor } from './cursor.ts';

export const CHANNEL = 'ullage_feed';
export interface FeedWatchOptions {
  readonly url: string;
  readonly database: Database;
  readonly log: Log;
  readonly pollMs?: number;
  readonly reconnectMs?: number;
}
type Told = (cursor: Cursor) => void;
interface Watched {
  readonly listeners: Set<Told>;
  told: Cursor;
}
const newer = (a: Cursor, b: Cursor): boolean => a.epoch !== b.epoch || a.number > b.number;

export class FeedWatch {
  readonly #options: FeedWatchOptions;
  readonly #watched = new Map<string, Watched>();
  #client: pg.Client | undefined;
  #poll: NodeJS.Timeout | undefined;
  #retry: NodeJS.Timeout | undefined;
  #stopped = false;
  constructor(options: FeedWatchOptions) {
    this.#options = options;
  }

  start(): void {
    this.#poll = setInterval(() => void this.#lookAtAll(), this.#options.pollMs ?? 5_000);
    this.#poll.unref();
    void this.#listen();
  }

  /** Tells of each change from now on; the returned function ends it. `from` is what the listener knows already. */
  subscribe(tenantId: string, from: Cursor, listener: Told): () => void {
    const watched = this.#watched.get(tenantId) ?? { listeners: new Set<Told>(), told: from };
    watched.listeners.add(listener);
    this.#watched.set(tenantId, watched);
    // A change between reading `from` and now was told to nobody.
    if (newer(watched.told, from)) listener(watched.told);
    else void this.#look(tenantId);
    return () => {
      watched.listeners.delete(listener);
      if (watched.listeners.size === 0) this.#watched.delete(tenantId);
    };
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    clearInterval(this.#poll);
    clearTimeout(this.#retry);
    await this.#client?.end().catch(() => undefined);
  }

  async #listen(): Promise<void> {
    if (this.#stopped) return;
    const client = new pg.Client({
      connectionString: this.#options.url,
      application_name: 'ullage-live',
      keepAlive: true,
    });
    this.#client = client;
    const again = (): void => {
      if (this.#client !== client || this.#stopped) return;
      this.#client = undefined;
      this.#retry = setTimeout(() => void this.#listen(), this.#options.reconnectMs ?? 1_000);
      this.#retry.unref();
    };
    client.on('error', again);
    client.on('end', again);
    client.on('notification', ({ payload }) => void this.#look(payload ?? ''));
    try {
      await client.connect();
      await client.query(`LISTEN ${CHANNEL}`);
      // What happened while nobody listened.
      await this.#lookAtAll();
    } catch (error) {
      this.#options.log.trouble('not listening for changes', error);
      await client.end().catch(() => undefined);
      again();
    }
  }

  async #lookAtAll(): Promise<void> {
    await Promise.all([...this.#watched.keys()].map((tenantId) => this.#look(tenantId)));
  }

  async #look(tenantId: string): Promise<void> {
    const watched = this.#watched.get(tenantId);
    if (watched === undefined) return;
    try {
      const cursor = await readCursor(this.#options.database, tenantId);
      if (!newer(cursor, watched.told)) return;
      watched.told = cursor;
      for (const tell of watched.listeners) tell(cursor);
    } catch (error) {
      this.#options.log.trouble('could not read the change counter', error);
    }
  }
}
