import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import {
  definersOf,
  DEFINERS,
  executorsOf,
  GRANTS,
  grantsOf,
  TABLES,
  tablesOf,
  WIDE,
  widePoliciesOf,
} from './catalogue-grants.ts';
import { APPEND_ONLY, breachesOf, RULES } from './catalogue-rules.ts';

let world: TestOffice;
let admin: pg.Client;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
  admin = new pg.Client({ connectionString: world.database.adminUrl });
  await admin.connect();
});
afterAll(() => admin.end());

/** Breaks something, looks, and takes it back. */
async function withPlanted<T>(statements: readonly string[], look: () => Promise<T>): Promise<T> {
  await admin.query('BEGIN');
  try {
    for (const statement of statements) await admin.query(statement);
    return await look();
  } finally {
    await admin.query('ROLLBACK');
  }
}

describe('by the catalogue', () => {
  for (const rule of RULES) {
    test(rule.name, async () => {
      expect(await breachesOf(admin, rule)).toEqual([]);
      const seen = await withPlanted(rule.plant, () => breachesOf(admin, rule));
      expect(seen.join(', ')).toBe(rule.seenAs);
    });
  }
});

describe('against the written lists', () => {
  const lists = [
    {
      what: 'every table there is',
      read: tablesOf,
      written: TABLES,
      plant: 'CREATE TABLE planted (tenant_id uuid PRIMARY KEY)',
    },
    { what: 'table by verb', read: grantsOf, written: GRANTS, plant: 'GRANT DELETE ON duty TO ullage_app' },
    {
      what: 'column by verb',
      read: grantsOf,
      written: GRANTS,
      plant: 'GRANT UPDATE (epoch) ON feed_counter TO ullage_app',
    },
    {
      what: 'what runs with its owner’s rights',
      read: definersOf,
      written: DEFINERS,
      plant: `CREATE FUNCTION planted() RETURNS int LANGUAGE sql SECURITY DEFINER AS 'SELECT 1'`,
    },
    {
      what: 'policies that see every tenant',
      read: widePoliciesOf,
      written: WIDE,
      plant: 'CREATE POLICY planted ON duty FOR SELECT TO ullage_relay USING (true)',
    },
    {
      what: 'who may call what runs with its owner’s rights: nobody',
      read: executorsOf,
      written: [],
      plant: 'GRANT EXECUTE ON FUNCTION book_movement() TO ullage_app',
    },
  ];
  for (const { what, read, written, plant } of lists) {
    test(`${what}`, async () => {
      expect(await read(admin)).toEqual(written);
      expect(await withPlanted([plant], () => read(admin))).not.toEqual(written);
    });
  }
});

describe('what is written down once stands', () => {
  let firm: Contractor;
  let owner: pg.Client;
  beforeAll(async () => {
    const today = onDay('2026-04-30');
    const of = ids();
    firm = await world.contractor();
    await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
      at: today('07:30'),
    });
    await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
    const needed = ['register-cylinder', 'record-leak-point', 'record-recovery'];
    await run(
      firm,
      visitSteps(of, today).filter(([kind]) => needed.includes(kind)),
    );
    owner = new pg.Client({ connectionString: world.database.urls.owner });
    await owner.connect();
    await owner.query(`SELECT set_config('app.tenant_id', $1, false)`, [firm.tenantId]);
  });
  afterAll(() => owner.end());

  for (const table of APPEND_ONLY) {
    test(`${table}: not changed, not deleted, not emptied, not even by the owner of the tables`, async () => {
      const rows = await owner.query<{ n: number }>(`SELECT count(*)::int AS n FROM ${table}`);
      expect(rows.rows[0]?.n).toBeGreaterThan(0); // a wall without rows behind it would hold by itself
      const attempts = [
        `UPDATE ${table} SET tenant_id = tenant_id`,
        `DELETE FROM ${table}`,
        `TRUNCATE ${table} CASCADE`,
      ];
      for (const attempt of attempts) {
        // restrict_violation, by the trigger; 23503 would be a foreign key that happens to stand in the way
        await expect(owner.query(attempt), attempt).rejects.toMatchObject({ code: '23001' });
      }
      const app = new pg.Client({ connectionString: world.database.urls.application });
      await app.connect();
      await app.query(`SELECT set_config('app.tenant_id', $1, false)`, [firm.tenantId]);
      for (const attempt of attempts) {
        await expect(app.query(attempt), attempt).rejects.toMatchObject({ code: '42501' });
      }
      await app.end();
    });
  }

  test('a command’s envelope and hash, and who sent it when, are never rewritten by the application', async () => {
    const app = new pg.Client({ connectionString: world.database.urls.application });
    await app.connect();
    await app.query(`SELECT set_config('app.tenant_id', $1, false)`, [firm.tenantId]);
    const columns = await owner.query<{ name: string }>(
      `SELECT attname AS name FROM pg_attribute WHERE attrelid = 'command'::regclass AND attnum > 0 AND NOT attisdropped`,
    );
    const refused: string[] = [];
    for (const { name } of columns.rows) {
      const done = await app.query(`UPDATE command SET ${name} = ${name}`).then(
        ({ rowCount }) => rowCount,
        (error: { code: string }) => error.code,
      );
      if (done === '42501') refused.push(name);
      else expect(done, name).toBeGreaterThan(0);
    }
    await app.end();
    const kept = 'id kind tenant_id device_id device_seq hash envelope user_id happened_at sent_at received_at';
    expect(refused.sort()).toEqual(kept.split(' ').sort());
  });

  test('an account is locked by a command but never changed', async () => {
    await expect(owner.query(`UPDATE gas_account SET kind = kind`)).rejects.toMatchObject({ code: '23001' });
  });

  test('balances are written by the movements alone', async () => {
    const app = new pg.Client({ connectionString: world.database.urls.application });
    await app.connect();
    await app.query(`SELECT set_config('app.tenant_id', $1, false)`, [firm.tenantId]);
    for (const attempt of [
      'UPDATE balance SET grams = 0',
      'DELETE FROM balance',
      'INSERT INTO balance DEFAULT VALUES',
    ]) {
      await expect(app.query(attempt)).rejects.toMatchObject({ code: '42501' });
    }
    await app.end();
  });
});
