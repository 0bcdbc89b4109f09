/** Keys by which programs act: the same permissions as people, out at once when revoked, and never another contractor's. */
import { allRoutes } from '@ullage/api';
import type { Route } from '@ullage/api';
import { createOffice, systemClock } from '@ullage/casework';
import { KEY_ROLES, MAY } from '@ullage/contracts';
import type { KeyRole, Permission } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, describe, expect, test } from 'vitest';
import { aFirm, expectOk, Visitor } from '../support/api-people.ts';
import type { Answer, Firm } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';
import { asksOf } from '../support/asks.ts';

const calendar = makeCalendar(Temporal);
const system = systemClock(calendar);
let ahead = 0;
const clock = { ...system, date: () => new Date(Date.now() + ahead) };
const api = await runApi({
  clock,
  office: ({ database }) => createOffice({ database, calendar, now: system.now, newId }),
});
const DAY_MS = 86_400_000;

interface Key {
  readonly id: string;
  readonly secret: string;
}
let firm: Firm;
const keys: Partial<Record<KeyRole, Key>> = {};
const keyOf = (role: KeyRole): Key => keys[role] ?? expect.unreachable(role);
async function make(by: Visitor, body: object): Promise<Key> {
  return (await expectOk(by.post('/v1/keys', body))).json() as unknown as Key;
}
beforeAll(async () => {
  firm = await aFirm(api);
  for (const role of KEY_ROLES)
    keys[role] = await make(firm.of.owner, { name: `The ${role}’s program`, role, days: 90 });
});

/** A program: it has no cookie and comes from no page. */
const program = new Visitor(api);
const bearer = (secret: string) => ({ headers: { authorization: `Bearer ${secret}` } });
const books = (secret: string): Promise<Answer> => program.get('/v1/books', bearer(secret));

test('either header opens; no other text does, and nothing says which part was wrong', async () => {
  const { secret } = keyOf('auditor');
  expect((await books(secret)).status).toBe(200);
  expect((await program.get('/v1/books', { headers: { 'x-api-key': secret } })).status).toBe(200);
  const wrong = ['', 'ullage_', `${secret}x`, secret.slice(0, -1), `ullage_${'A'.repeat(43)}`, `${secret} ${secret}`];
  const answers = await Promise.all(wrong.map(books));
  answers.push(await program.get('/v1/books', { headers: { 'x-api-key': secret.slice(0, -1) } }));
  for (const answer of answers)
    expect([answer.status, answer.json()['type']]).toEqual([401, '/problems/not-signed-in']);
  expect(new Set(answers.map(({ text }) => text)).size).toBe(1);
});

test('a wrong key is refused beside a good session, too; what a proxy asks for by the same header is no key', async () => {
  const { owner } = firm.of;
  expect((await owner.get('/v1/books', bearer(`ullage_${'A'.repeat(43)}`))).status).toBe(401);
  expect((await owner.get('/v1/books', { headers: { authorization: 'Basic b3duZXI6eA==' } })).status).toBe(200);
});

const routes = allRoutes(api.app);
const urlOf = ({ path }: Route): string => path.replaceAll(/:\w+/g, () => newId());
const NO_KEY = /^(\w+ \/v1\/(account|people\/|sign-ins|sync\/(push|pull))|(POST|DELETE) \/v1\/(keys|webhooks))/;
function ought(route: Route): Permission | 'everybody' | 'no key' {
  const { method, path } = route;
  if (!path.startsWith('/v1/') || /^\/v1\/(invitations\/|password-resets)/.test(path)) return 'everybody';
  if (NO_KEY.test(`${method} ${path}`)) return 'no key';
  const asks = asksOf(route);
  if (asks === undefined) throw new Error(`nothing says what ${method} ${path} asks`);
  return asks === 'people.manage' ? 'no key' : asks;
}

describe.each(KEY_ROLES)('a key of the role %s', (role) => {
  test.each(
    routes
      .filter(({ path }) => path !== '/v1/changes/stream')
      .map((route) => [`${route.method} ${route.path}`, route] as const),
  )('%s', async (_, route) => {
    const asks = ought(route);
    const more = route.method === 'POST' ? { body: {} } : {};
    // From another site: a key is in no cookie, so that no page can send it for somebody.
    const headers = { ...bearer(keyOf(role).secret).headers, origin: 'https://elsewhere.example' };
    const { status } = await program.ask(route.method as 'GET', urlOf(route), { ...more, headers });
    const allowed = asks === 'everybody' || (asks !== 'no key' && MAY[role].includes(asks));
    if (allowed) expect([401, 403, 500]).not.toContain(status);
    else expect(status).toBe(403);
  });
});

test('what a key says it may is what it may', async () => {
  const me = (await program.get('/v1/me', bearer(keyOf('manager').secret))).json();
  expect(me['role']).toBe('manager');
  expect(me['permissions']).not.toContain('people.manage');
  expect(me['permissions']).toContain('settings.change');
});

test('what a key does is done once, by its name in the audit trail', async () => {
  const { id, secret } = keyOf('warehouse');
  const locationId = newId();
  const key = newId();
  const body = { body: { locationId, kind: 'van', name: 'Van 7', elevationM: 1600 } };
  const send = () => program.post('/v1/commands/register-location', body, { key, ...bearer(secret) });
  expect((await send()).json()['outcome']).toBe('applied');
  expect((await send()).json()['outcome']).toBe('already-applied');
  const { rows } = await api.admin.query('SELECT action, detail FROM audit WHERE record_id = $1', [locationId]);
  expect(rows).toEqual([
    { action: 'register-location', detail: { op: 'made', key: { id, name: 'The warehouse’s program' } } },
  ]);
});

test('a program sends what depends on something after it: nothing of its waits', async () => {
  const body = { locationId: newId(), kind: 'van', name: 'Van 8', elevationM: 1600 };
  const waits = { dependsOn: [newId()], body };
  const answer = await program.post('/v1/commands/register-location', waits, bearer(keyOf('warehouse').secret));
  expect([answer.status, answer.json()['errors']]).toEqual([
    422,
    [{ pointer: '#/dependsOn', detail: 'Depends on: has not been applied yet; send this after it.' }],
  ]);
  expect((await api.admin.query("SELECT id FROM command WHERE state = 'waiting'")).rowCount).toBe(0);
});

test('a key reads its own contractor and no other, whose people neither see nor revoke it', async () => {
  const other = await aFirm(api, 'Heron Cold Works');
  const theirs = await make(other.of.owner, { name: 'Export', role: 'auditor', days: 30 });
  const named = async (secret: string) => (await program.get('/v1/me', bearer(secret))).json()['tenant'];
  expect(await named(theirs.secret)).toMatchObject({ name: 'Heron Cold Works' });
  expect(await named(keyOf('auditor').secret)).toMatchObject({ name: 'Coldwell Refrigeration' });
  const list = await firm.of.owner.get('/v1/keys');
  expect(list.text).not.toContain(theirs.id);
  const unknown = await firm.of.owner.ask('DELETE', `/v1/keys/${newId()}`);
  const foreign = await firm.of.owner.ask('DELETE', `/v1/keys/${theirs.id}`);
  expect([foreign.status, foreign.text]).toEqual([404, unknown.text]);
  expect((await books(theirs.secret)).status).toBe(200);
});

test('the secret is shown once: neither list nor database nor log has it', async () => {
  const { secret } = keyOf('dispatcher');
  expect(secret).toMatch(/^ullage_[\w-]{43}$/);
  const list = await firm.of.auditor.get('/v1/keys');
  expect(list.text).not.toContain(secret.slice(7));
  const { rows } = await api.admin.query('SELECT k::text AS line FROM auth.api_key k');
  expect(JSON.stringify(rows)).not.toContain(secret.slice(7));
  expect(api.log.join('\n')).not.toContain(secret.slice(7));
});

describe('a key ends', () => {
  const stateOf = async (id: string) => {
    const { items } = (await firm.of.auditor.get('/v1/keys')).json() as {
      items: { id: string; state: string; usedAt: string | null }[];
    };
    return items.find((item) => item.id === id);
  };

  test('at the next request after it was revoked, once; until then it says when it was used', async () => {
    const key = await make(firm.of.manager, { name: 'Short', role: 'auditor', days: 30 });
    expect(await stateOf(key.id)).toMatchObject({ state: 'in-use', usedAt: null });
    expect((await books(key.secret)).status).toBe(200);
    expect((await stateOf(key.id))?.usedAt).not.toBeNull();
    expect((await firm.of.manager.ask('DELETE', `/v1/keys/${key.id}`)).status).toBe(200);
    expect((await books(key.secret)).status).toBe(401);
    expect((await firm.of.manager.ask('DELETE', `/v1/keys/${key.id}`)).status).toBe(404);
    expect(await stateOf(key.id)).toMatchObject({ state: 'revoked' });
    const { rows } = await api.admin.query('SELECT action FROM audit WHERE record_id = $1 ORDER BY at, id', [key.id]);
    expect(rows.map(({ action }) => action)).toEqual(['make-key', 'revoke-key']);
  });

  test('with its days', async () => {
    const key = await make(firm.of.owner, { name: 'A month', role: 'auditor', days: 30 });
    ahead = 30 * DAY_MS - 60_000;
    expect((await books(key.secret)).status).toBe(200);
    ahead = 30 * DAY_MS + 60_000;
    expect((await books(key.secret)).status).toBe(401);
    ahead = 0;
  });

  test('with the rights of whoever made it', async () => {
    const key = await make(firm.of.manager, { name: 'The manager’s', role: 'dispatcher', days: 365 });
    const found = await api.admin.query('SELECT id FROM person WHERE email = $1', [firm.of.manager.email]);
    const role = (to: string) => expectOk(firm.of.owner.post(`/v1/people/${found.rows[0].id}/role`, { role: to }));
    await role('dispatcher');
    expect((await books(key.secret)).status).toBe(401);
    expect(await stateOf(key.id)).toMatchObject({ state: 'maker-gone' });
    await role('manager');
    expect((await books(key.secret)).status).toBe(200);
  });
});

test('an owner’s rights are given to no program, and a name and an end are asked for', async () => {
  for (const [body, pointer] of [
    [{ name: 'Too much', role: 'owner', days: 30 }, '#/role'],
    [{ name: 'For ever', role: 'auditor', days: 36_500 }, '#/days'],
    [{ name: ' ', role: 'auditor', days: 30 }, '#/name'],
  ] as const) {
    const answer = await firm.of.owner.post('/v1/keys', body);
    const errors = answer.json()['errors'] as { pointer: string }[];
    expect([answer.status, errors.map((one) => one.pointer)]).toEqual([400, [pointer]]);
  }
});

test('fifty keys are enough: the next is refused until one is revoked', async () => {
  const crowd = new Visitor(api);
  await crowd.signUp();
  await crowd.found('Crowd');
  const made = await Promise.all(
    Array.from({ length: 50 }, (_, i) => make(crowd, { name: `K${i}`, role: 'auditor', days: 30 })),
  );
  expect((await crowd.post('/v1/keys', { name: 'One more', role: 'auditor', days: 30 })).status).toBe(422);
  await crowd.ask('DELETE', `/v1/keys/${made[0]?.id}`);
  expect((await crowd.post('/v1/keys', { name: 'One more', role: 'auditor', days: 30 })).status).toBe(200);
});
