/** Counts what the product sends to PostgreSQL. */
import { AsyncLocalStorage } from 'node:async_hooks';
import pg from 'pg';

const counting = new AsyncLocalStorage<string[]>();
const textOf = (config: unknown): string =>
  typeof config === 'string' ? config : String((config as { text?: unknown }).text);

// Under every connection, and in place before any is made: product code has no part in being counted.
const send = pg.Client.prototype.query as (this: pg.Client, ...args: unknown[]) => unknown;
Object.assign(pg.Client.prototype, {
  query(this: pg.Client, ...args: unknown[]) {
    counting.getStore()?.push(textOf(args[0]));
    return send.apply(this, args);
  },
});

/** The statements that `work` caused, in order; BEGIN and COMMIT among them. */
export async function statementsOf(work: () => Promise<unknown>): Promise<string[]> {
  const texts: string[] = [];
  await counting.run(texts, work);
  return texts;
}
