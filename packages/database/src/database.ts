import { AsyncLocalStorage } from 'node:async_hooks';
import { createHash } from 'node:crypto';
import pg from 'pg';
import { PrismaPg } from '@prisma/adapter-pg';
import * as z from 'zod';
import { PrismaClient } from './generated/client.ts';
import type { Prisma } from './generated/client.ts';

/** What a casework function gets: one transaction of one tenant. It can open no other. */
export type Tx = Omit<Prisma.TransactionClient, '$transaction'>;
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
/** A read whose SQL text and row shape are written down together, for `tenantQuery` and `txQuery`. */
export interface Statement<Row> {
  readonly text: string;
  readonly row: z.ZodType<Row>;
}

/** A statement inside a transaction that is open already. @throws ZodError when a row is not of its shape */
export async function txQuery<Row>(tx: Tx, statement: Statement<Row>, values: unknown[] = []): Promise<Row[]> {
  const rows = await tx.$queryRawUnsafe<unknown[]>(statement.text, ...values);
  return rows.map((row) => statement.row.parse(row));
}

const Uuid = z.uuid();
// SET LOCAL, not SELECT set_config(): a SELECT before it would refuse a later SET TRANSACTION. The id was checked to be a UUID.
const begin = (tenantId: string) => `BEGIN; SET LOCAL app.tenant_id = '${Uuid.parse(tenantId)}'`;

/** Prepared-statement name of a text, so that the server plans each text once per connection. */
function statementNames(): (text: string) => string | undefined {
  const names = new Map<string, string>();
  return (text) => {
    const known = names.get(text);
    if (known !== undefined || names.size >= 1000) return known;
    const name = createHash('sha1').update(text).digest('base64url');
    names.set(text, name);
    return name;
  };
}

type QueryConfig = { text?: string };
/** The adapter opens each transaction with the text BEGIN; inside `inTenant` that BEGIN carries the tenant: one round trip less. */
function carryTenantInBegin(client: pg.PoolClient, tenant: AsyncLocalStorage<string>): void {
  const query: (...args: unknown[]) => unknown = client.query.bind(client);
  const carrying = (config: QueryConfig | string, ...rest: unknown[]): unknown => {
    const tenantId = tenant.getStore();
    const opens = tenantId !== undefined && typeof config === 'object' && config.text === 'BEGIN';
    return opens ? query(begin(tenantId)) : query(config, ...rest);
  };
  Object.assign(client, { query: carrying });
}

function openPool(options: DatabaseOptions, tenant: AsyncLocalStorage<string>): pg.Pool {
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
    carryTenantInBegin(client, tenant);
  });
  return pool;
}

/** The only way to the tables: every statement runs inside one tenant's transaction. */
export class Database {
  readonly #tenant = new AsyncLocalStorage<string>();
  readonly #pool: pg.Pool;
  readonly #prisma: PrismaClient;
  readonly #nameOf = statementNames();

  constructor(options: DatabaseOptions) {
    this.#pool = openPool(options, this.#tenant);
    const adapter = new PrismaPg(this.#pool, { statementNameGenerator: (query) => this.#nameOf(query.sql) ?? '' });
    this.#prisma = new PrismaClient({ adapter });
  }

  /** All that `work` does through `tx` sees and writes rows of this tenant only; the setting ends with the transaction. */
  inTenant<T>(tenantId: string, work: (tx: Tx) => Promise<T>, options: TenantOptions = {}): Promise<T> {
    Uuid.parse(tenantId);
    const limits = { maxWait: 5_000, timeout: options.timeoutMs ?? 15_000 };
    if (options.snapshot !== true) return this.#tenant.run(tenantId, () => this.#prisma.$transaction(work, limits));
    const reading = async (tx: Tx): Promise<T> => {
      await tx.$executeRawUnsafe('SET TRANSACTION READ ONLY');
      return work(tx);
    };
    const asOfOneMoment = { ...limits, isolationLevel: 'RepeatableRead' } as const;
    return this.#tenant.run(tenantId, () => this.#prisma.$transaction(reading, asOfOneMoment));
  }

  /**
   * One statement for one tenant in one round trip: BEGIN with the tenant, the statement and COMMIT are written to the
   * socket together (pipeline mode). For hot reads; rows are checked against the statement's shape.
   */
  async tenantQuery<Row>(tenantId: string, statement: Statement<Row>, values: unknown[] = []): Promise<Row[]> {
    const opening = begin(tenantId);
    const client = await this.#pool.connect();
    const [opened, answer, closed] = await Promise.allSettled([
      client.query(opening),
      client.query({ name: this.#nameOf(statement.text), text: statement.text, values }),
      client.query('COMMIT'),
    ]);
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
