/** A tenant's transaction, and statements that go to its connection past the query builder. */
import { AsyncLocalStorage } from 'node:async_hooks';
import type { Writable } from 'node:stream';
import type pg from 'pg';
import * as z from 'zod';
import type { Prisma } from './generated/client.ts';
import { nameOf } from './statement-names.ts';

/** What a casework function gets: one transaction of one tenant. It can open no other. */
export type Tx = Omit<Prisma.TransactionClient, '$transaction'>;
/**
 * A read whose SQL text and row shape are written down together, for `tenantQuery` and `txQuery`. A day is asked for as
 * text: the driver makes of a date the midnight of the zone that the process runs in.
 */
export interface Statement<Row> {
  readonly text: string;
  readonly row: z.ZodType<Row>;
}

const Uuid = z.uuid();
/** SET LOCAL, not SELECT set_config(): a SELECT before it would refuse a later SET TRANSACTION. @throws ZodError unless a UUID */
export const beginOf = (tenantId: string): string => `BEGIN; SET LOCAL app.tenant_id = '${Uuid.parse(tenantId)}'`;

type Send = (config: pg.QueryConfig | string, ...rest: unknown[]) => Promise<pg.QueryResult>;
/** It takes statements from its BEGIN until its COMMIT or ROLLBACK is on the way, and none that comes later. */
interface Session {
  readonly opening: string;
  send: Send | undefined;
}
const opening = new AsyncLocalStorage<Session>();
const sessions = new WeakMap<Tx, Session>();

/** Runs `start`, which opens a transaction through the adapter, so that its BEGIN carries the tenant; `joined` marks its `tx`. */
export function asTenant<T>(tenantId: string, start: (joined: (tx: Tx) => Tx) => Promise<T>): Promise<T> {
  const session: Session = { opening: beginOf(tenantId), send: undefined };
  const joined = (tx: Tx): Tx => {
    sessions.set(tx, session);
    return tx;
  };
  return opening.run(session, () => start(joined));
}

const OPENED_LATER: pg.QueryResult = { command: 'BEGIN', rowCount: null, oid: 0, fields: [], rows: [] };

/** What is sent within `work` leaves in one packet. */
export function together<T>(stream: Writable, work: () => T): T {
  stream.cork();
  try {
    return work();
  } finally {
    stream.uncork();
  }
}

/**
 * Holds a BEGIN back until the first statement and sends both in one packet: one round trip less. No answer counts before
 * the BEGIN has been carried out: had it failed, what came after it would have run by itself, without a tenant.
 */
function openingWith(begin: string, { query, stream }: { query: Send; stream: Writable }): Send {
  let begun: Promise<unknown> | undefined;
  let isOpen = false;
  const first: Send = (config, ...rest) =>
    together(stream, () => {
      begun ??= query(begin).then(() => {
        isOpen = true;
      });
      const answer = query(config, ...rest);
      // Of two failures the BEGIN's is told, and the other does not go unheard.
      return Promise.all([begun, answer]).then(() => answer);
    });
  return (config, ...rest) => (isOpen ? query(config, ...rest) : first(config, ...rest));
}

/**
 * The adapter opens each transaction with the text BEGIN; inside `asTenant` that BEGIN carries the tenant. The session
 * learns which connection it got, and loses it as the transaction ends, whoever ends it.
 */
export function followTransactions(client: pg.PoolClient): void {
  const query: Send = client.query.bind(client);
  const { stream } = client.connection;
  let session: Session | undefined;
  let inSession = query;
  const following: Send = (config, ...rest) => {
    const text = typeof config === 'object' ? config.text : undefined;
    if (text === 'BEGIN') {
      session = opening.getStore();
      if (!session) return query(config, ...rest);
      inSession = openingWith(session.opening, { query, stream });
      session.send = inSession;
      return Promise.resolve(OPENED_LATER);
    }
    if (text !== 'COMMIT' && text !== 'ROLLBACK') return inSession(config, ...rest);
    if (session) session.send = undefined;
    session = undefined;
    const ending = inSession;
    inSession = query;
    // As a plain text it is one message; the adapter would have it prepared.
    return ending(text);
  };
  Object.assign(client, { query: following });
}

function send(tx: Tx, text: string, values: unknown[]): Promise<pg.QueryResult> {
  const session = sessions.get(tx);
  // Its connection may by now serve another tenant.
  if (!session?.send) throw new Error('The transaction is over.');
  return session.send({ name: nameOf(text), text, values });
}

/** A statement inside a transaction that is open already, prepared once per connection. @throws ZodError when a row is not of its shape */
export async function txQuery<Row>(tx: Tx, statement: Statement<Row>, values: unknown[] = []): Promise<Row[]> {
  const { rows } = await send(tx, statement.text, values);
  return rows.map((row) => statement.row.parse(row));
}

/** What is written or locked at every turn, as `txQuery` reads. Gives the number of rows. */
export async function txWrite(tx: Tx, text: string, values: unknown[]): Promise<number> {
  const { rowCount } = await send(tx, text, values);
  return rowCount ?? 0;
}
