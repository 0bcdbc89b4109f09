/** The one place that reads the environment. */
import { LogLevel, OTEL_EXPORTER_OTLP_ENDPOINT, readEnvironment, ServerUrl } from '@ullage/contracts';
import type { ProcessEnvironment } from '@ullage/contracts';
import { MAIL_ENVIRONMENT, mailSettings, SENDER_IS_NAMED } from '@ullage/mail';
import type { MailSettings } from '@ullage/mail';
import * as z from 'zod';

interface Links {
  readonly SMTP_URL?: string | undefined;
  readonly PUBLIC_ORIGIN?: string | undefined;
}
const ORIGIN_IS_KNOWN = z.refine<Links>((given) => given.SMTP_URL === undefined || given.PUBLIC_ORIGIN !== undefined, {
  error: 'give the board’s address: SMTP_URL needs it for the links in mails',
  path: ['PUBLIC_ORIGIN'],
  when: () => true,
});
const Environment = z
  .object({
    DATABASE_URL: ServerUrl,
    QUEUE_DATABASE_URL: ServerUrl,
    RELAY_DATABASE_URL: ServerUrl,
    /** The queue lies in Redis when this is set, else in PostgreSQL. */
    REDIS_URL: z.url({ protocol: /^rediss?$/ }).optional(),
    /** The address people type, of the board: the links in mails stand on it, and nothing else here. */
    PUBLIC_ORIGIN: ServerUrl.transform((url) => new URL(url).origin).optional(),
    ...MAIL_ENVIRONMENT,
    /** Where Prometheus reads the counts, on this machine only; without it nothing is counted. */
    METRICS_PORT: z.coerce.number().int().min(0).max(65_535).optional(),
    LOG_LEVEL: LogLevel,
    OTEL_EXPORTER_OTLP_ENDPOINT,
  })
  .check(SENDER_IS_NAMED, ORIGIN_IS_KNOWN);
/** Mail as this program sends it: with links to the board. */
export type Mailing = MailSettings & { readonly publicOrigin: string };
export interface Settings {
  readonly databaseUrl: string;
  readonly queueDatabaseUrl: string;
  readonly relayDatabaseUrl: string;
  readonly redisUrl: string | undefined;
  /** Undefined where no mail is sent. */
  readonly mail: Mailing | undefined;
  /** Undefined where nothing is counted. */
  readonly metricsPort: number | undefined;
  readonly logLevel: z.output<typeof LogLevel>;
  /** Where traces go; undefined where none are made. */
  readonly tracesTo: string | undefined;
}

/** @throws Error naming each variable that is missing or wrong, never its value. */
export function readSettings(environment: ProcessEnvironment = process.env): Settings {
  const data = readEnvironment(Environment, environment);
  const { PUBLIC_ORIGIN: publicOrigin } = data;
  const mail = mailSettings(data);
  return {
    databaseUrl: data.DATABASE_URL,
    queueDatabaseUrl: data.QUEUE_DATABASE_URL,
    relayDatabaseUrl: data.RELAY_DATABASE_URL,
    redisUrl: data.REDIS_URL,
    mail: mail && publicOrigin !== undefined ? { ...mail, publicOrigin } : undefined,
    metricsPort: data.METRICS_PORT,
    logLevel: data.LOG_LEVEL,
    tracesTo: data.OTEL_EXPORTER_OTLP_ENDPOINT,
  };
}
