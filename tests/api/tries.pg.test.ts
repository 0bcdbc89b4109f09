/** Guessing at an account, at two processes of the api on one database: held up for a while, and nobody locked out for ever. */
import { systemClock } from '@ullage/casework';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { aFirm, expectOk, PASSWORD, Visitor } from '../support/api-people.ts';
import type { Answer, Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const system = systemClock(makeCalendar(Temporal));
let ahead = 0;
const clock = { ...system, date: () => new Date(Date.now() + ahead) };
const MINUTE_MS = 60_000;
const later = (minutes: number): void => void (ahead += minutes * MINUTE_MS);

const one = await runApi({ clock });
const two = await runApi({ clock, beside: one });
const processes = [one, two];
let firm: Firm;
let turn = 0;
beforeEach(async () => {
  firm ??= await aFirm(one);
  later(60); // of whatever was counted before, nothing counts any more
});

/** A browser that nobody has signed in with, at one process or the other. */
const stranger = (email: string): Visitor => new Visitor(processes[turn++ % 2] ?? one, email);
const signIn = (visitor: Visitor, password = PASSWORD): Promise<Answer> =>
  visitor.post('/v1/auth/sign-in/email', { email: visitor.email, password });
const guess = (email: string): Promise<Answer> => signIn(stranger(email), 'not the one');
/** Ten guesses at once use up what strangers may try; the next is held up. */
async function attack(email: string): Promise<Answer> {
  const guesses = await Promise.all(Array.from({ length: 10 }, () => guess(email)));
  expect(guesses.map(({ status }) => status)).toEqual(Array(10).fill(401));
  return guess(email);
}
async function personIdOf(visitor: Visitor): Promise<string> {
  const [row] = (
    await one.admin.query<{ id: string }>(
      'SELECT p.id FROM person p JOIN auth."user" u ON u.id = p.user_id WHERE u.email = $1 AND p.tenant_id = $2',
      [visitor.email, firm.tenantId],
    )
  ).rows;
  return row!.id;
}

describe('guesses at one account', () => {
  test('are ten in five minutes over all processes, right or wrong; then it says how long to wait, and ends by itself', async () => {
    const { email } = firm.of.technician;
    const refused = await attack(email);
    expect([refused.status, refused.headers['retry-after']]).toEqual([429, '300']);
    expect(refused.json()).toEqual({
      type: '/problems/too-many',
      title: 'Too many requests',
      status: 429,
      detail: 'Too many tries for this account: try again in 5 minutes.',
    });
    later(3.5);
    const still = await signIn(stranger(email.toUpperCase()));
    expect([still.status, still.headers['retry-after'], still.json()['detail']]).toEqual([
      429,
      '90',
      'Too many tries for this account: try again in 2 minutes.',
    ]);
    // Another account is not held up.
    expect((await signIn(stranger(firm.of.auditor.email))).status).toBe(200);
    later(1.5);
    expect((await signIn(stranger(email))).status).toBe(200);
  });

  test('that never stop keep nobody out of a browser they have signed in with before', async () => {
    const { dispatcher } = firm.of;
    for (let round = 0; round < 4; round++) {
      expect((await attack(dispatcher.email)).status).toBe(429);
      expect((await signIn(dispatcher)).status).toBe(200);
      later(5);
    }
  });

  test('in a browser that knows the account are counted there, and hold up that browser alone, for a while', async () => {
    const { manager } = firm.of;
    const desk = stranger(manager.email);
    await expectOk(signIn(desk));
    for (let tried = 0; tried < 10; tried++) expect((await signIn(desk, 'not the one')).status).toBe(401);
    expect((await signIn(desk)).status).toBe(429);
    expect((await signIn(manager)).status).toBe(200);
    expect((await signIn(stranger(manager.email))).status).toBe(200);
    later(5);
    expect((await signIn(desk)).status).toBe(200);
  });

  test('are forgotten after the right password, so that slips of a week are never added up', async () => {
    const { email } = firm.of.warehouse;
    for (let day = 0; day < 4; day++) {
      for (let slip = 0; slip < 4; slip++) expect((await guess(email)).status).toBe(401);
      expect((await signIn(stranger(email))).status).toBe(200);
    }
  });

  test('no longer hold anybody up once the password was chosen anew by its link, however long they go on', async () => {
    const { owner, warehouse } = firm.of;
    expect((await attack(warehouse.email)).status).toBe(429);
    const made = await expectOk(owner.post(`/v1/people/${await personIdOf(warehouse)}/reset-link`));
    const token = String(made.json()['url']).split('/').at(-1);
    const browser = stranger(warehouse.email);
    await expectOk(browser.post('/v1/auth/reset-password', { token, newPassword: 'another horse ten' }));
    await expectOk(signIn(stranger(warehouse.email), 'another horse ten'));
    await Promise.all(Array.from({ length: 10 }, () => guess(warehouse.email)));
    expect((await guess(warehouse.email)).status).toBe(429);
    await expectOk(signIn(browser, 'another horse ten'));
    // A link that does not open lifts nothing.
    expect((await browser.post('/v1/auth/reset-password', { token, newPassword: 'yet another one' })).status).toBe(400);
    expect((await guess(warehouse.email)).status).toBe(429);
  });

  test('with a cookie made up, or of another account, are a stranger’s', async () => {
    const { auditor } = firm.of;
    const known = auditor.cookie.split('; ').find((cookie) => cookie.startsWith('ullage.browser='))!;
    const [name, value] = known.split('=') as [string, string];
    const [browser] = value.split('.') as [string];
    expect((await attack(firm.of.owner.email)).status).toBe(429);
    for (const cookie of [
      known,
      `${name}=${browser}.${'A'.repeat(22)}`,
      `${name}=${browser}`,
      `${name}=..`,
      `${name}=`,
    ]) {
      const { email } = firm.of.owner;
      const answer = await stranger(email).post(
        '/v1/auth/sign-in/email',
        { email, password: PASSWORD },
        { headers: { cookie } },
      );
      expect(answer.status, cookie).toBe(429);
    }
  });

  test('cost one statement each, and so does the right password at the first try', async () => {
    const { email } = firm.of.auditor;
    const asked = vi.spyOn(one.auth.pool, 'query');
    const counted = (): number =>
      asked.mock.calls.filter(([text]) => typeof text === 'string' && text.includes('auth.attempt')).length;
    await signIn(new Visitor(one, email));
    expect(counted()).toBe(1);
    await signIn(new Visitor(one, 'nobody@firm.example'), 'not the one');
    expect(counted()).toBe(2);
    asked.mockRestore();
  });

  test('leave nothing behind: what has run out goes with what is tried next', async () => {
    await one.admin.query(
      `INSERT INTO auth.attempt (key, count, ends_at) SELECT 'account|old' || n, 3, $1 FROM generate_series(1, 50) n`,
      [new Date(clock.date().getTime() - 1)],
    );
    for (let tried = 0; tried < 4; tried++) await guess('nobody@firm.example');
    const left = await one.admin.query(`SELECT FROM auth.attempt WHERE ends_at <= $1`, [clock.date()]);
    expect(left.rowCount).toBe(0);
  });
});

describe('behind a trusted proxy', () => {
  test('one address makes and tries thirty accounts a minute over all processes, and a network of IPv6 counts as one', async () => {
    const near = await runApi({ clock, trustProxy: '127.0.0.1' });
    const far = await runApi({ clock, trustProxy: '127.0.0.1', beside: near });
    const signUp = (at: number, address: string): Promise<Answer> => {
      const visitor = new Visitor(at % 2 === 0 ? near : far);
      const body = { name: 'Kim', email: visitor.email, password: PASSWORD };
      return visitor.post('/v1/auth/sign-up/email', body, { headers: { 'x-forwarded-for': address } });
    };
    for (const addressOf of [() => '203.0.113.7', (at: number) => `2001:db8:1:2::${(at + 1).toString(16)}`]) {
      const all = await Promise.all(Array.from({ length: 31 }, (_, at) => signUp(at, addressOf(at))));
      expect(all.filter(({ status }) => status === 200)).toHaveLength(30);
      const refused = all.find(({ status }) => status === 429);
      expect(refused?.json()['detail']).toBe('Too many tries for this address: try again in a minute.');
    }
    expect((await signUp(0, '203.0.113.8')).status).toBe(200);
    expect((await signUp(0, '2001:db8:1:3::1')).status).toBe(200);
    later(1);
    expect((await signUp(0, '203.0.113.7')).status).toBe(200);
  });
});
