/** The only file that knows which datastore holds the queue. */
import { createPostgresBackend, setDefaultBackendFactory } from 'bullmq';
import type { ConnectionOptions } from 'bullmq';
import { Redis } from 'ioredis';
import pg from 'pg';

/** Made by the migrations, which also bring it to the installed BullMQ. */
const SCHEMA = 'bullmq';
/** Each worker keeps one connection to itself for listening; the rest is shared by queues and workers. */
const CONNECTIONS = 8;
/** Unheard of for so long, a job counts as lost with its worker and is given to another. */
export const LOCK_MS = 10_000;
export const STALLED_CHECK_MS = 5_000;

export interface QueueBackend {
  readonly name: 'postgres' | 'redis';
  /** What queues and workers are made with. */
  readonly connection: ConnectionOptions;
  /** Answers when the datastore does. A queue made before that would never work. @throws whatever the driver says */
  ping(): Promise<void>;
  close(): Promise<void>;
}
interface Asked {
  readonly queueDatabaseUrl: string;
  readonly redisUrl: string | undefined;
  readonly onError: (error: Error) => void;
}

export function openBackend(asked: Asked): QueueBackend {
  return asked.redisUrl === undefined ? inPostgres(asked) : inRedis(asked, asked.redisUrl);
}

function inPostgres({ queueDatabaseUrl, onError }: Asked): QueueBackend {
  const pool = new pg.Pool({
    connectionString: queueDatabaseUrl,
    max: CONNECTIONS,
    application_name: 'ullage-queue',
    connectionTimeoutMillis: 5_000,
    keepAlive: true,
    options: `-c search_path=${SCHEMA}`,
  });
  // Every queue and worker listens to the pool as well.
  pool.setMaxListeners(0);
  pool.on('error', onError);
  // The pool listens only to idle clients: one in use whose server dies would end the process.
  pool.on('connect', (client) => client.on('error', onError));
  setDefaultBackendFactory(createPostgresBackend);
  return {
    name: 'postgres',
    // The library's types know Redis alone at this place.
    connection: pool as unknown as ConnectionOptions,
    ping: async () => void (await pool.query('SELECT 1')),
    close: () => pool.end(),
  };
}

function inRedis({ onError }: Asked, url: string): QueueBackend {
  setDefaultBackendFactory();
  const redis = new Redis(url, { maxRetriesPerRequest: null, connectTimeout: 5_000 });
  redis.on('error', onError);
  return {
    name: 'redis',
    connection: redis,
    ping: async () => void (await redis.ping()),
    close: async () => void (await redis.quit().catch(() => redis.disconnect())),
  };
}
