import pg from 'pg';
import type { Log } from '../log.ts';

const CHANNEL = 'ullage_feed';
const RECONNECT_MS = 1_000;

/** Calls `onChange` when a command says that something changed. Only a hint: it may come twice, or not at all. */
export class Wake {
  readonly #url: string;
  readonly #log: Log;
  readonly #onChange: () => void;
  #client: pg.Client | undefined;
  #retry: NodeJS.Timeout | undefined;
  #stopped = false;

  constructor(given: { url: string; log: Log; onChange: () => void }) {
    this.#url = given.url;
    this.#log = given.log;
    this.#onChange = given.onChange;
  }
  async start(): Promise<void> {
    if (this.#stopped) return;
    const client = new pg.Client({
      connectionString: this.#url,
      application_name: 'ullage-wake',
      keepAlive: true,
      connectionTimeoutMillis: 5_000,
    });
    this.#client = client;
    const again = (): void => {
      if (this.#client !== client || this.#stopped) return;
      this.#client = undefined;
      this.#retry = setTimeout(() => void this.start(), RECONNECT_MS);
    };
    client.on('error', again);
    client.on('end', again);
    client.on('notification', () => this.#onChange());
    try {
      await client.connect();
      await client.query(`LISTEN ${CHANNEL}`);
      // What happened while nobody listened.
      this.#onChange();
    } catch (error) {
      this.#log.trouble('not listening for changes', error);
      again();
      await client.end().catch(() => undefined);
    }
  }
  async stop(): Promise<void> {
    this.#stopped = true;
    clearTimeout(this.#retry);
    await this.#client?.end().catch(() => undefined);
  }
}
