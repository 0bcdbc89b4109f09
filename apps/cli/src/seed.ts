// npm run seed -- --demo: a demo contractor with sign-ins, in an empty database. Passwords go to .data/demo.json (0600).
import { randomBytes, randomUUID } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hashPassword } from 'better-auth/crypto';
import pg from 'pg';
import { Temporal } from 'temporal-polyfill';
import { createOffice, systemClock } from '@ullage/casework';
import type { Actor } from '@ullage/casework';
import type { Role } from '@ullage/contracts';
import { Database } from '@ullage/database';
import { makeCalendar } from '@ullage/units';
import type { Instant } from '@ullage/units';
import { DEMO_ZONE, seedDemo } from '../../../prisma/seed/demo.ts';
import { readEnv } from './env.ts';
import { dataDir } from './paths.ts';
import { say } from './say.ts';

const PEOPLE: Readonly<Record<Role, string>> = {
  owner: 'Verity Hollis',
  manager: 'Anders Vale',
  dispatcher: 'Pia Renn',
  warehouse: 'Cal Dorsey',
  technician: 'Noor Haddock',
  auditor: 'Lotte Brandt',
};
const FIRM = 'Heron Vale Refrigeration';
const calendar = makeCalendar(Temporal as never);

interface SignIn {
  readonly role: Role;
  readonly email: string;
  readonly password: string;
}

/** The firm and one account for each role, as the sign-in library keeps them. */
async function makeAccounts(auth: pg.Client, signIns: readonly SignIn[], now: Date): Promise<Record<Role, Actor>> {
  const tenantId = randomUUID();
  const metadata = JSON.stringify({ timeZone: DEMO_ZONE, demo: true });
  await auth.query(
    `INSERT INTO auth.organization (id, name, slug, "createdAt", metadata) VALUES ($1, $2, $3, $4, $5)`,
    [tenantId, FIRM, `demo-${tenantId.slice(0, 8)}`, now, metadata],
  );
  const actors: Partial<Record<Role, Actor>> = {};
  for (const { role, email, password } of signIns) {
    const userId = randomUUID();
    await auth.query(
      `INSERT INTO auth."user" (id, name, email, "emailVerified", "createdAt", "updatedAt") VALUES ($1, $2, $3, true, $4, $4)`,
      [userId, PEOPLE[role], email, now],
    );
    await auth.query(
      `INSERT INTO auth.account ("accountId", "providerId", "userId", password, "createdAt", "updatedAt") VALUES ($1, 'credential', $2, $3, $4, $4)`,
      [userId, userId, await hashPassword(password), now],
    );
    await auth.query(
      `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, $3, $4)`,
      [tenantId, userId, role, now],
    );
    actors[role] = { tenantId, userId, role };
  }
  return actors as Record<Role, Actor>;
}

async function main(): Promise<void> {
  const env = readEnv();
  if (!process.argv.includes('--demo')) throw new Error('There is one seed: npm run seed -- --demo.');
  if (env.DATABASE_URL === undefined || env.AUTH_DATABASE_URL === undefined) {
    throw new Error('Set DATABASE_URL and AUTH_DATABASE_URL, or let npm start make the demo in its own database.');
  }
  const auth = new pg.Client({ connectionString: env.AUTH_DATABASE_URL });
  await auth.connect();
  const database = new Database({ url: env.DATABASE_URL, name: 'ullage seed', connections: 2 });
  try {
    const system = systemClock(calendar);
    const start = system.now();
    let clock: Instant = start;
    const newId = (): string => system.newId();
    const office = createOffice({ database, calendar, now: () => clock, newId });
    const signIns = (Object.keys(PEOPLE) as Role[]).map((role): SignIn => ({
      role,
      email: `${role}@heronvale.example`,
      password: randomBytes(9).toString('base64url'),
    }));
    const actors = await makeAccounts(auth, signIns, new Date(start));
    await seedDemo({
      office,
      calendar,
      actors,
      today: calendar.dayOf(start, DEMO_ZONE),
      newId,
      setClock: (at) => (clock = at),
      step: say,
    });
    writeFileSync(join(dataDir, 'demo.json'), JSON.stringify({ signIns }, null, 2), { mode: 0o600 });
  } finally {
    await database.close();
    await auth.end();
  }
}

await main().catch((error: unknown) => {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
});
