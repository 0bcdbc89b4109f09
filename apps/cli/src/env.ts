import { readEnvironment, ServerUrl } from '@ullage/contracts';
import * as z from 'zod';

const url = ServerUrl.optional();

/** Everything the command line reads from its environment; nothing else in this app looks at `process.env`. */
const CliEnv = z.object({
  CI: z.string().optional(),
  DATA_DIR: z.string().optional(),
  CHROMIUM: z.string().optional(),
  DATABASE_URL: url,
  MIGRATE_DATABASE_URL: url,
  AUTH_DATABASE_URL: url,
  QUEUE_DATABASE_URL: url,
  RELAY_DATABASE_URL: url,
  SHADOW_DATABASE_URL: url,
  /** A superuser's address, for `npm run migrate -- --prepare` only. */
  ADMIN_DATABASE_URL: url,
  REDIS_URL: url,
  /** Handed on to api and worker; the start looks at them first. */
  SMTP_URL: z.string().optional(),
  MAIL_FROM: z.string().optional(),
  PUBLIC_ORIGIN: url,
  /** Where the board listens. Loopback unless told: a demo has passwords that stand on the screen. */
  BOARD_HOST: z.string().optional(),
  DEMO_IN_PUBLIC: z.string().optional(),
  /** What a new embedded database is filled with: three years of work, the first stories alone, or nothing. */
  DEMO: z.enum(['full', 'small', 'none'], { error: 'choose full, small or none' }).default('full'),
  PORT: z.coerce.number().int().min(0).max(65_535).optional(),
});
export type CliEnv = z.output<typeof CliEnv>;
export type DemoSize = CliEnv['DEMO'];

/** The environment of this run. @throws Error naming each variable that is wrong: a person mistyped it and must see which */
export const readEnv = (): CliEnv => readEnvironment(CliEnv, process.env);

/** The environment a child process gets: ours, with `extra` on top. */
export function childEnv(extra: Readonly<Record<string, string | undefined>> = {}): NodeJS.ProcessEnv {
  return { ...process.env, ...extra };
}

/** The little that a server of another account needs to know of this environment. */
export function bareEnv(): NodeJS.ProcessEnv {
  return { PATH: process.env.PATH, LC_ALL: 'C', TZ: 'UTC' };
}
