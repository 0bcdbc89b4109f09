/** The one place that reads the environment. */
import { LogLevel, OTEL_EXPORTER_OTLP_ENDPOINT, readEnvironment, ServerUrl } from '@ullage/contracts';
import type { ProcessEnvironment } from '@ullage/contracts';
import { MAIL_ENVIRONMENT, mailSettings, SENDER_IS_NAMED } from '@ullage/mail';
import type { MailSettings } from '@ullage/mail';
import * as z from 'zod';
import { LIMITS } from './http/limits.ts';
import type { LimitSettings } from './http/limits.ts';
import { AT_ONCE } from './http/turns.ts';

const Environment = z
  .object({
    PORT: z.coerce.number().int().min(0).max(65_535).default(3100),
    /** The board stands in front: nobody else needs to reach the api. */
    HOST: z.string().min(1).default('127.0.0.1'),
    DATABASE_URL: ServerUrl,
    AUTH_DATABASE_URL: ServerUrl,
    /** The address people type, of the board: links and the check of where a request comes from stand on it. */
    PUBLIC_ORIGIN: ServerUrl.transform((url) => new URL(url).origin),
    AUTH_SECRET: z.string().min(32, { error: 'AUTH_SECRET: at least 32 characters of chance' }),
    /** Addresses of a proxy that overwrites the forwarded header, as `10.0.0.0/8`; without it no address is believed. */
    TRUST_PROXY: z.string().min(1).optional(),
    /** Requests a minute that this one process answers; see limits.ts for what they guard and what they are unless said. */
    LIMIT_PER_ACCOUNT: z.coerce.number().int().positive().default(LIMITS.perAccount),
    LIMIT_PER_TENANT: z.coerce.number().int().positive().default(LIMITS.perTenant),
    LIMIT_PER_ADDRESS: z.coerce.number().int().positive().default(LIMITS.perAddress),
    LIMIT_AT_ONCE: z.coerce.number().int().positive().default(AT_ONCE),
    /** Says that a database with demo accounts may be served to the public. */
    DEMO_IN_PUBLIC: z.literal('yes').optional(),
    ...MAIL_ENVIRONMENT,
    LOG_LEVEL: LogLevel,
    OTEL_EXPORTER_OTLP_ENDPOINT,
  })
  .check(SENDER_IS_NAMED);
export interface Settings {
  readonly port: number;
  readonly host: string;
  readonly databaseUrl: string;
  readonly authDatabaseUrl: string;
  readonly publicOrigin: string;
  readonly authSecret: string;
  readonly trustProxy: string | undefined;
  readonly limits: LimitSettings;
  readonly demoInPublic: boolean;
  /** Undefined where no mail is sent. */
  readonly mail: MailSettings | undefined;
  readonly logLevel: z.output<typeof LogLevel>;
  /** Where traces go; undefined where none are made. */
  readonly tracesTo: string | undefined;
}

/** @throws Error naming each variable that is missing or wrong, never its value. */
export function readSettings(environment: ProcessEnvironment = process.env): Settings {
  const data = readEnvironment(Environment, environment);
  return {
    port: data.PORT,
    host: data.HOST,
    databaseUrl: data.DATABASE_URL,
    authDatabaseUrl: data.AUTH_DATABASE_URL,
    publicOrigin: data.PUBLIC_ORIGIN,
    authSecret: data.AUTH_SECRET,
    trustProxy: data.TRUST_PROXY,
    limits: {
      perAccount: data.LIMIT_PER_ACCOUNT,
      perTenant: data.LIMIT_PER_TENANT,
      perAddress: data.LIMIT_PER_ADDRESS,
      atOnce: data.LIMIT_AT_ONCE,
    },
    demoInPublic: data.DEMO_IN_PUBLIC === 'yes',
    mail: mailSettings(data),
    logLevel: data.LOG_LEVEL,
    tracesTo: data.OTEL_EXPORTER_OTLP_ENDPOINT,
  };
}
