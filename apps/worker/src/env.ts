/** The one place that reads the environment. */
import * as z from 'zod';

const Url = z.url();
const Environment = z.object({
  DATABASE_URL: Url,
  QUEUE_DATABASE_URL: Url,
  RELAY_DATABASE_URL: Url,
  /** The queue lies in Redis when this is set, else in PostgreSQL. */
  REDIS_URL: z.url({ protocol: /^rediss?$/ }).optional(),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'silent']).default('info'),
});
export interface Settings {
  readonly databaseUrl: string;
  readonly queueDatabaseUrl: string;
  readonly relayDatabaseUrl: string;
  readonly redisUrl: string | undefined;
  readonly logLevel: z.output<typeof Environment>['LOG_LEVEL'];
}

/** @throws Error naming each variable that is missing or wrong, never its value. */
export function readSettings(environment: Readonly<Record<string, string | undefined>> = process.env): Settings {
  const given = Object.fromEntries(Object.entries(environment).filter(([, value]) => value !== ''));
  const read = Environment.safeParse(given);
  if (!read.success) {
    const faults = read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`);
    throw new Error(`The environment is not complete.\n${faults.join('\n')}`);
  }
  const { data } = read;
  return {
    databaseUrl: data.DATABASE_URL,
    queueDatabaseUrl: data.QUEUE_DATABASE_URL,
    relayDatabaseUrl: data.RELAY_DATABASE_URL,
    redisUrl: data.REDIS_URL,
    logLevel: data.LOG_LEVEL,
  };
}
