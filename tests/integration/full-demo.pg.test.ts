import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Database } from '@ullage/database';
import { tellDemo } from '../../prisma/seed/firms.ts';
import { freshDatabase } from '../support/database.ts';
import { calendar } from '../support/office.ts';

const NOW = '2026-11-25T19:30:00.000Z';
let admin: pg.Pool;
beforeAll(async () => {
  const fresh = await freshDatabase();
  const database = new Database({ url: fresh.urls.application, name: 'full demo', connections: 8 });
  admin = new pg.Pool({ connectionString: fresh.adminUrl, max: 2 });
  afterAll(async () => {
    await database.close();
    await admin.end();
  });
  const begun = performance.now();
  await tellDemo(
    {
      accounts: admin,
      database,
      calendar,
      now: NOW,
      newPassword: () => 'not used',
      hash: (password) => Promise.resolve(password),
      step: (words) => console.log(Math.round(performance.now() - begun), words),
    },
    'full',
  );
}, 300_000);

describe('the full demo', () => {
  test('is there', async () => {
    const { rows } = await admin.query(`SELECT (SELECT count(*) FROM customer) c, (SELECT count(*) FROM site) s, (SELECT count(*) FROM unit) u, (SELECT count(*) FROM cylinder) cy, (SELECT count(*) FROM visit) v, (SELECT count(*) FROM command) cm, (SELECT count(*) FROM outbox) ob`);
    console.log(rows);
    expect(rows).toHaveLength(1);
  });
});
