import { join } from 'node:path';
import type { DatabaseUrls } from '../logins.ts';
import type { Ports } from './ports.ts';
import type { Service } from './supervisor.ts';

export interface ServiceSettings {
  readonly root: string;
  readonly urls: DatabaseUrls;
  readonly ports: Ports;
  readonly publicOrigin: string;
  /** Where the board listens; the api never leaves loopback. */
  readonly host: string;
  readonly authSecret: string;
  readonly redisUrl: string | undefined;
  /** Where mail goes and from whom; without the address none is sent. */
  readonly mail: { readonly SMTP_URL: string | undefined; readonly MAIL_FROM: string | undefined };
  /** The board's build, relative to the root. */
  readonly boardFolder: string;
}

/** The three programs, in the order in which they start; each is told only what it needs. */
export function services(settings: ServiceSettings): readonly Service[] {
  const { root, urls, ports, publicOrigin } = settings;
  const shared = { NODE_ENV: 'production', PUBLIC_ORIGIN: publicOrigin };
  const { SMTP_URL = '', MAIL_FROM = '' } = settings.mail;
  const mail = [
    ['SMTP_URL', SMTP_URL],
    ['MAIL_FROM', MAIL_FROM],
  ] as const;
  const apiOrigin = `http://127.0.0.1:${ports.api}`;
  return [
    {
      name: 'worker',
      script: join(root, 'apps/worker/dist/main.js'),
      cwd: root,
      env: {
        ...shared,
        ...without(
          ['DATABASE_URL', urls.application],
          ['QUEUE_DATABASE_URL', urls.queue],
          ['RELAY_DATABASE_URL', urls.relay],
          ...mail,
        ),
        ...(settings.redisUrl === undefined ? {} : { REDIS_URL: settings.redisUrl }),
      },
      graceMs: 30_000, // a job under way is finished first
    },
    {
      name: 'api',
      script: join(root, 'apps/api/dist/main.js'),
      cwd: root,
      env: {
        ...shared,
        ...without(['DATABASE_URL', urls.application], ['AUTH_DATABASE_URL', urls.auth], ...mail),
        AUTH_SECRET: settings.authSecret,
        HOST: '127.0.0.1',
        PORT: String(ports.api),
      },
      readyUrl: `${apiOrigin}/health/ready`,
    },
    {
      name: 'board',
      script: join(root, settings.boardFolder, 'standalone/apps/board/server.js'),
      cwd: root,
      env: {
        ...shared,
        ...without(),
        API_ORIGIN: apiOrigin,
        HOSTNAME: settings.host,
        PORT: String(ports.board),
        NEXT_TELEMETRY_DISABLED: '1',
      },
      readyUrl: `http://${EVERYWHERE.includes(settings.host) ? '127.0.0.1' : settings.host}:${ports.board}/`,
    },
  ];
}

const EVERYWHERE = ['0.0.0.0', '::'];
const ADDRESSES = [
  'DATABASE_URL',
  'MIGRATE_DATABASE_URL',
  'AUTH_DATABASE_URL',
  'QUEUE_DATABASE_URL',
  'RELAY_DATABASE_URL',
  'SMTP_URL',
  'MAIL_FROM',
];

/** Only these: the others, which our own environment may hold, are emptied. The mail server's has a password in it. */
function without(...given: readonly (readonly [string, string])[]): Record<string, string> {
  return { ...Object.fromEntries(ADDRESSES.map((name) => [name, ''])), ...Object.fromEntries(given) };
}
