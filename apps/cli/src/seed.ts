// npm run seed -- --demo: a demo contractor with sign-ins, in an empty database. Passwords go to .data/demo.json (0600).
import { randomBytes } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { systemClock } from '@ullage/casework';
import { Database } from '@ullage/database';
import { makeCalendar } from '@ullage/units';
import { tellDemo } from '../../../prisma/seed/firms.ts';
import { readEnv } from './env.ts';
import { dataDir } from './paths.ts';
import { say } from './say.ts';

const calendar = makeCalendar(Temporal as never);

async function main(): Promise<void> {
  const env = readEnv();
  if (!process.argv.includes('--demo')) throw new Error('There is one seed: npm run seed -- --demo.');
  if (env.DEMO === 'none') throw new Error('DEMO=none asks for no demo: choose full or small.');
  if (env.DATABASE_URL === undefined || env.AUTH_DATABASE_URL === undefined) {
    throw new Error('Set DATABASE_URL and AUTH_DATABASE_URL, or let npm start make the demo in its own database.');
  }
  const accounts = new pg.Client({ connectionString: env.AUTH_DATABASE_URL });
  await accounts.connect();
  const database = new Database({ url: env.DATABASE_URL, name: 'ullage seed', connections: 8 });
  try {
    const hands = {
      accounts,
      database,
      calendar,
      now: systemClock(calendar).now(),
      newPassword: () => randomBytes(9).toString('base64url'),
      hash: hashPassword,
      step: say,
    };
    const signIns = await tellDemo(hands, env.DEMO);
    writeFileSync(join(dataDir, 'demo.json'), JSON.stringify({ signIns }, null, 2), { mode: 0o600 });
  } finally {
    await database.close();
    await accounts.end();
  }
}

await main().catch((error: unknown) => {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
});
