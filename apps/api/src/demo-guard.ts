/** A demo's sign-ins are printed for anybody at the keyboard: such a database is not put before strangers. */
import type pg from 'pg';
import type { Settings } from './env.ts';

const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1']);
type Exposure = Pick<Settings, 'host' | 'publicOrigin' | 'demoInPublic'>;
export const isExposed = ({ host, publicOrigin }: Omit<Exposure, 'demoInPublic'>): boolean =>
  !LOOPBACK.has(host) || publicOrigin.startsWith('https:');

const DEMO = `SELECT EXISTS (SELECT FROM auth.organization WHERE nullif(metadata, '')::jsonb ->> 'demo' = 'true') AS there`;

/** @throws Error in one sentence when a demo would be served to the public and nobody said that it may be */
export async function refuseDemoInPublic(pool: pg.Pool, settings: Exposure): Promise<void> {
  if (!isExposed(settings) || settings.demoInPublic) return;
  const found = await pool.query<{ there: boolean }>(DEMO);
  if (found.rows[0]?.there !== true) return;
  throw new Error(
    'This database has demo accounts whose passwords are printed: serve it on this machine only, or set DEMO_IN_PUBLIC=yes.',
  );
}
