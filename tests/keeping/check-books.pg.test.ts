/** Books that were tampered with behind the program's back: each check bites on its own, and only where it should. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { checkBooks } from '@ullage/casework';
import { root, urlsAsEnv } from '@ullage/cli/tasks';
import { Database } from '@ullage/database';
import { checkAllBooks } from '../../apps/cli/src/keeping/check-all.ts';
import { calendar, openTestOffice } from '../support/office.ts';
import type { TestOffice } from '../support/office.ts';
import { told } from '../support/told.ts';

let world: TestOffice;
let database: Database;
beforeAll(async () => {
  world = await openTestOffice('2026-04-30T12:00:00.000Z');
  database = new Database({ url: world.database.urls.application, name: 'check', connections: 1 });
});
afterAll(() => database.close());

/** Statements that no trigger and no foreign key sees. */
const behindTheirBack = (...statements: string[]) =>
  world.sql(['BEGIN', 'SET LOCAL session_replication_role = replica', ...statements, 'COMMIT'].join(';\n'));
const check = (tenantId: string) => checkBooks({ database, calendar, now: () => world.clock.now }, tenantId);
const wrongIn = async (tenantId: string) =>
  (await check(tenantId)).filter(({ wrong }) => wrong.length > 0).map(({ name }) => name);
const firm = async (): Promise<string> => (await told(world)).firm.tenantId;

const ZERO = 'each refrigerant sums to zero';
const NOTHING = 'nothing points at nothing';
const DERIVED = 'derived postings and doubts follow from the facts';
const REPLAY = 'each balance is the replay of its movements';

test('honest books have no difference, and every check looked at something', async () => {
  const checks = await check(await firm());
  expect(checks.flatMap(({ wrong }) => wrong)).toEqual([]);
  expect(checks.filter(({ looked }) => looked === 0)).toEqual([]);
});

/** Per tenant: the account of a kind. */
const account = (t: string, kind: string) =>
  `(SELECT id FROM gas_account WHERE tenant_id = '${t}' AND kind = '${kind}' ORDER BY id LIMIT 1)`;
const movement = (t: string, columns: { from: string; to: string; grams: number; derived?: string }) => `
  INSERT INTO movement (tenant_id, id, refrigerant, grams, from_id, to_id, from_owner, from_state, to_owner, to_state,
    happened_at, recorded_at, measured, seq, derived_cause, derived_key)
  VALUES ('${t}', uuidv7(), 'R-448A', ${columns.grams}, ${columns.from}, ${columns.to}, '${t}', 'recycled', '${t}', 'recycled',
    '2026-04-30T12:00:00Z', '2026-04-30T12:00:00Z', 'derived', 0, ${columns.derived ?? 'NULL, NULL'})`;
const balance = (t: string, of: { account: string; kind: string; grams: number }) => `
  INSERT INTO balance (tenant_id, account_id, refrigerant, owner, state, kind, grams)
  VALUES ('${t}', ${of.account}, 'R-448A', '${t}', 'recycled', '${of.kind}', ${of.grams})`;

const TAMPERED: Record<string, { how: (t: string) => string[]; bites: string[] }> = {
  'a gram that came from nowhere': {
    how: (t) => [`UPDATE balance SET grams = grams + 1 WHERE tenant_id = '${t}' AND kind = 'supplier'`],
    bites: [ZERO, REPLAY],
  },
  'a gram shifted from one balance to another': {
    how: (t) => [
      `UPDATE balance SET grams = grams + 1 WHERE tenant_id = '${t}' AND kind = 'supplier'`,
      `UPDATE balance SET grams = grams - 1 WHERE (tenant_id, account_id, refrigerant, owner, state) =
         (SELECT tenant_id, account_id, refrigerant, owner, state FROM balance WHERE tenant_id = '${t}' AND kind = 'circuit' LIMIT 1)`,
    ],
    bites: [REPLAY],
  },
  'a movement without its balances': {
    how: (t) => [movement(t, { from: account(t, 'supplier'), to: account(t, 'reclaimer'), grams: 40 })],
    bites: [REPLAY, NOTHING],
  },
  'a cylinder that gave what it never had': {
    how: (t) => [
      movement(t, { from: account(t, 'cylinder'), to: account(t, 'reclaimer'), grams: 40 }),
      balance(t, { account: account(t, 'cylinder'), kind: 'cylinder', grams: -40 }),
      balance(t, { account: account(t, 'reclaimer'), kind: 'reclaimer', grams: 40 }),
    ],
    bites: ['no cylinder is below zero', NOTHING],
  },
  'a derived posting that follows from nothing': {
    how: (t) => [
      movement(t, {
        from: account(t, 'discrepancy'),
        to: account(t, 'circuit'),
        grams: 7,
        derived: `'books-short-of-full-charge', json_build_array(${account(t, 'circuit')}, 'nothing')::text`,
      }),
      balance(t, { account: account(t, 'discrepancy'), kind: 'discrepancy', grams: -7 }),
      balance(t, { account: account(t, 'circuit'), kind: 'circuit', grams: 7 }),
    ],
    bites: [DERIVED, NOTHING],
  },
  'a doubt that nothing clears': {
    how: (t) => [`UPDATE taint SET withdrawn_at = now() WHERE tenant_id = '${t}'`],
    bites: [DERIVED],
  },
  'a change that is missing': {
    how: (t) => [`DELETE FROM feed WHERE tenant_id = '${t}' AND number = 3`],
    bites: ['changes are numbered without a gap'],
  },
  'a counter that ran ahead': {
    how: (t) => [`UPDATE feed_counter SET number = number + 1 WHERE tenant_id = '${t}'`],
    bites: ['changes are numbered without a gap'],
  },
  'a reminder that is gone': {
    how: (t) => [
      `DELETE FROM reminder WHERE tenant_id = '${t}' AND reminded_at IS NULL AND dropped_at IS NULL AND plan_at > '2026-05-01'`,
    ],
    bites: ['each open duty has its reminders'],
  },
  'a reminder for a date that does not stand': {
    how: (t) => [
      `INSERT INTO reminder (tenant_id, duty_id, stage, due_epoch, plan_at)
       SELECT tenant_id, id, 0, 1, '2026-06-01' FROM duty WHERE tenant_id = '${t}' LIMIT 1`,
    ],
    bites: ['each open duty has its reminders'],
  },
  'a leak point that was taken away': {
    // The bound on drawn-in air rests on the leak's size as well.
    how: (t) => [`DELETE FROM leak_point WHERE tenant_id = '${t}'`],
    bites: [DERIVED, NOTHING],
  },
  'a circuit whose customer is gone': {
    how: (t) => [`DELETE FROM customer WHERE tenant_id = '${t}'`],
    bites: [NOTHING],
  },
};

test.for(Object.entries(TAMPERED))('%s', async ([, { how, bites }]) => {
  const tenantId = await firm();
  await behindTheirBack(...how(tenantId));
  expect(await wrongIn(tenantId)).toEqual(bites);
});

test('the command says one line for each check, names the contractor, and ends with 1', async () => {
  const lines: string[] = [];
  const tenantId = await firm();
  const { urls } = world.database;
  expect(await checkAllBooks({ urls, only: tenantId, say: (line) => lines.push(line) })).toBe(0);
  expect(lines.filter((line) => line.startsWith('ok '))).toHaveLength(7);
  expect(lines.at(-1)).toBe('1 contractors, 0 differences');

  await behindTheirBack(`DELETE FROM feed WHERE tenant_id = '${tenantId}' AND number = 3`);
  const run = spawnSync(
    process.execPath,
    [join(root, 'apps/cli/bin/run.mjs'), 'apps/cli/src/check-books.ts', tenantId],
    { cwd: root, encoding: 'utf8', env: { ...process.env, ...urlsAsEnv(urls) } },
  );
  expect(run.stdout).toContain('WRONG changes are numbered without a gap');
  expect(run.stdout).toContain(`contractor ${tenantId}: change 4 (epoch 1) comes after 2 (epoch 1)`);
  expect(run.status).toBe(1);
});

test('somebody who is no contractor is said to be none', async () => {
  const nobody = '0198c0de-0000-7000-8000-000000000000';
  await expect(checkAllBooks({ urls: world.database.urls, only: nobody, say: () => undefined })).rejects.toThrow(
    `There is no contractor ${nobody}.`,
  );
});
