import pg from 'pg';
import { PrismaPg } from '@prisma/adapter-pg';
import { PrismaClient } from './generated/client.ts';
import { nameOf } from './statement-names.ts';
import { asTenant, beginOf, followTransactions, together } from './transaction.ts';
import type { Statement, Tx } from './transaction.ts';

export interface DatabaseOptions {
  url: string;
  /** Connections at most; 10 unless said. */
  connections?: number;
  /** Shown by PostgreSQL beside each connection. */
  name: string;
  onPoolError?: (error: Error) => void;
}
export interface TenantOptions {
  timeoutMs?: number;
  /** Everything is read as of one moment, and nothing is written. */
  snapshot?: boolean;
}

function openPool(options: DatabaseOptions): pg.Pool {
  const onError = options.onPoolError ?? (() => undefined);
  const config: pg.PoolConfig & { pipeline: boolean } = {
    connectionString: options.url,
    max: options.connections ?? 10,
    connectionTimeoutMillis: 5_000,
    idleTimeoutMillis: 30_000,
    application_name: options.name,
    pipeline: true,
  };
  const pool = new pg.Pool(config);
  pool.on('error', onError);
  pool.on('connect', (client) => {
    // The pool listens only to idle clients: one in use whose server dies between two queries would end the process.
    client.on('error', onError);
    followTransactions(client);
  });
  return pool;
}

/** The only way to the tables: every statement runs inside one tenant's transaction. */
export class Database {
  readonly #pool: pg.Pool;
  readonly #prisma: PrismaClient;

  constructor(options: DatabaseOptions) {
    this.#pool = openPool(options);
    const adapter = new PrismaPg(this.#pool, { statementNameGenerator: (query) => nameOf(query.sql) ?? '' });
    this.#prisma = new PrismaClient({ adapter });
  }

  /** All that `work` does through `tx` sees and writes rows of this tenant only; the setting ends with the transaction. */
  inTenant<T>(tenantId: string, work: (tx: Tx) => Promise<T>, options: TenantOptions = {}): Promise<T> {
    const limits = { maxWait: 5_000, timeout: options.timeoutMs ?? 15_000 };
    if (options.snapshot !== true)
      return asTenant(tenantId, (joined) => this.#prisma.$transaction((tx) => work(joined(tx)), limits));
    const reading = async (tx: Tx): Promise<T> => {
      await tx.$executeRawUnsafe('SET TRANSACTION READ ONLY');
      return work(tx);
    };
    const asOfOneMoment = { ...limits, isolationLevel: 'RepeatableRead' } as const;
    return asTenant(tenantId, (joined) => this.#prisma.$transaction((tx) => reading(joined(tx)), asOfOneMoment));
  }

  /**
   * One statement for one tenant in one round trip: BEGIN with the tenant, the statement and COMMIT are written to the
   * socket together (pipeline mode). For hot reads; rows are checked against the statement's shape.
   */
  async tenantQuery<Row>(tenantId: string, statement: Statement<Row>, values: unknown[] = []): Promise<Row[]> {
    const opening = beginOf(tenantId);
    const client = await this.#pool.connect();
    const [opened, answer, closed] = await together(client.connection.stream, () =>
      Promise.allSettled([
        client.query(opening),
        client.query({ name: nameOf(statement.text), text: statement.text, values }),
        client.query('COMMIT'),
      ]),
    );
    client.release(opened.status === 'rejected' || closed.status === 'rejected');
    for (const step of [answer, opened, closed]) if (step.status === 'rejected') throw step.reason;
    return answer.status === 'fulfilled' ? answer.value.rows.map((row) => statement.row.parse(row)) : [];
  }

  /** Wakes whoever listens: sent outside the command's transaction, and only a hint (listeners also poll). */
  async notify(channel: string, payload: string): Promise<void> {
    await this.#pool.query('SELECT pg_notify($1, $2)', [channel, payload]);
  }

  /** Answers when PostgreSQL does. @throws whatever the driver says */
  async ping(): Promise<void> {
    await this.#pool.query('SELECT 1');
  }

  async close(): Promise<void> {
    await this.#prisma.$disconnect();
    await this.#pool.end();
  }
}
