/** One's own sign-in: where it is open, the second factor, and what whoever runs the firm may do about a lost phone. */
import { beforeAll, describe, expect, test } from 'vitest';
import { aFirm, expectOk, PASSWORD, Visitor } from '../support/api-people.ts';
import type { Answer, Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';
import { totp } from '../support/totp.ts';

const api = await runApi();
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
});

interface Account {
  readonly secondFactor: boolean;
  readonly sessions: readonly { id: string; current: boolean; userAgent: string | null }[];
}
const accountOf = async (visitor: Visitor): Promise<Account> =>
  (await expectOk(visitor.get('/v1/account'))).json() as unknown as Account;
const signIn = (visitor: Visitor, userAgent = 'Phone'): Promise<Answer> =>
  visitor.post(
    '/v1/auth/sign-in/email',
    { email: visitor.email, password: PASSWORD },
    { headers: { 'user-agent': userAgent } },
  );
/** A further browser of somebody. */
async function elsewhere(of: Visitor, userAgent?: string): Promise<Visitor> {
  const visitor = new Visitor(api, of.email);
  expect((await signIn(visitor, userAgent)).status).toBe(200);
  return visitor;
}
async function personOf(visitor: Visitor): Promise<string> {
  const { rows } = await api.admin.query('SELECT id FROM person WHERE email = $1', [visitor.email]);
  return String(rows[0].id);
}

// RFC 6238 appendix B, the last six of eight digits at 59 s; the secret is "12345678901234567890".
test('the reckoner of the test is right', () =>
  expect(totp('GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ', 59_000)).toBe('287082'));

interface Enabled {
  readonly totpURI: string;
  readonly backupCodes: string[];
}
async function turnOn(visitor: Visitor): Promise<{ secret: string; codes: string[] }> {
  const asked = await expectOk(visitor.post('/v1/auth/two-factor/enable', { password: PASSWORD }));
  const { totpURI, backupCodes } = asked.json() as unknown as Enabled;
  const secret = new URL(totpURI).searchParams.get('secret') ?? '';
  await expectOk(visitor.post('/v1/auth/two-factor/verify-totp', { code: totp(secret) }));
  return { secret, codes: backupCodes };
}

describe('sessions', () => {
  test('are listed with what the browser said of itself; one is ended, then all others', async () => {
    const { technician } = firm.of;
    const phone = await elsewhere(technician, 'Phone');
    const tablet = await elsewhere(technician, 'Tablet');
    const seen = await accountOf(technician);
    expect(seen.sessions.map(({ current }) => current).filter(Boolean)).toHaveLength(1);
    const id = seen.sessions.find(({ userAgent }) => userAgent === 'Phone')?.id;
    await expectOk(technician.ask('DELETE', `/v1/account/sessions/${id}`));
    expect((await phone.get('/v1/books')).status).toBe(401);
    expect((await tablet.get('/v1/books')).status).toBe(200);
    expect((await technician.ask('DELETE', `/v1/account/sessions/${id}`)).status).toBe(404);
    await expectOk(technician.ask('DELETE', '/v1/account/sessions'));
    expect((await tablet.get('/v1/books')).status).toBe(401);
    expect((await accountOf(technician)).sessions).toHaveLength(1);
  });

  test('of somebody else are neither seen nor ended', async () => {
    const [mine] = (await accountOf(firm.of.owner)).sessions;
    expect((await firm.of.manager.ask('DELETE', `/v1/account/sessions/${mine?.id}`)).status).toBe(404);
    expect((await firm.of.owner.get('/v1/books')).status).toBe(200);
    expect((await accountOf(firm.of.manager)).sessions.map(({ id }) => id)).not.toContain(mine?.id);
  });

  test('of a lost phone are ended by whoever runs the firm, and it is written down', async () => {
    const { dispatcher, manager, owner } = firm.of;
    const phone = await elsewhere(dispatcher);
    const id = await personOf(dispatcher);
    expect((await firm.of.warehouse.ask('DELETE', `/v1/people/${id}/sessions`)).status).toBe(403);
    await expectOk(manager.ask('DELETE', `/v1/people/${id}/sessions`));
    expect((await phone.get('/v1/books')).status).toBe(401);
    await dispatcher.signIn();
    const { rows } = await api.admin.query('SELECT record_id FROM audit WHERE action = $1', ['end-sessions']);
    expect(rows).toEqual([{ record_id: id }]);
    // A manager does not put out an owner.
    expect((await manager.ask('DELETE', `/v1/people/${await personOf(owner)}/sessions`)).status).toBe(403);
  });

  test('of another contractor’s people are out of reach', async () => {
    const other = await aFirm(api, 'Heron Cold Works');
    const theirs = await personOf(other.of.technician);
    for (const what of ['sessions', 'second-factor'])
      expect((await firm.of.owner.ask('DELETE', `/v1/people/${theirs}/${what}`)).status).toBe(404);
    expect((await other.of.technician.get('/v1/books')).status).toBe(200);
  });
});

test('a password is changed with the old one, and the other browsers are out', async () => {
  const { warehouse } = firm.of;
  const phone = await elsewhere(warehouse);
  const change = (currentPassword: string) =>
    warehouse.post('/v1/auth/change-password', {
      currentPassword,
      newPassword: 'another horse eleven',
      revokeOtherSessions: true,
    });
  expect((await change('not the one')).status).toBe(400);
  expect((await change(PASSWORD)).status).toBe(200);
  expect((await phone.get('/v1/books')).status).toBe(401);
  expect((await warehouse.get('/v1/books')).status).toBe(200);
  expect((await signIn(new Visitor(api, warehouse.email))).status).toBe(401);
});

describe('the second factor', () => {
  test('is on once a code was right, and then asked for at every sign-in', async () => {
    const visitor = firm.of.manager;
    const asked = await expectOk(visitor.post('/v1/auth/two-factor/enable', { password: PASSWORD }));
    // Not yet: whoever scanned it wrongly would be locked out.
    expect((await accountOf(visitor)).secondFactor).toBe(false);
    expect((await signIn(new Visitor(api, visitor.email))).json()['twoFactorRedirect']).toBeUndefined();
    const secret = new URL((asked.json() as unknown as Enabled).totpURI).searchParams.get('secret') ?? '';
    expect((await visitor.post('/v1/auth/two-factor/verify-totp', { code: '000000' })).status).toBe(401);
    await expectOk(visitor.post('/v1/auth/two-factor/verify-totp', { code: totp(secret) }));
    expect((await accountOf(visitor)).secondFactor).toBe(true);
    expect((await visitor.get('/v1/books')).status).toBe(200);

    const phone = new Visitor(api, visitor.email);
    const first = await signIn(phone);
    expect([first.status, first.json()['twoFactorRedirect']]).toEqual([200, true]);
    expect((await phone.get('/v1/books')).status).toBe(401);
    expect((await phone.post('/v1/auth/two-factor/verify-totp', { code: '000000' })).status).toBe(401);
    expect((await phone.get('/v1/books')).status).toBe(401);
    await expectOk(phone.post('/v1/auth/two-factor/verify-totp', { code: totp(secret) }));
    expect((await phone.get('/v1/books')).status).toBe(200);
  });

  test('a browser is known only after both', async () => {
    const { technician } = firm.of;
    const { secret } = await turnOn(technician);
    const phone = new Visitor(api, technician.email);
    await signIn(phone);
    expect(phone.cookie).not.toContain('ullage.browser');
    await expectOk(phone.post('/v1/auth/two-factor/verify-totp', { code: totp(secret) }));
    expect(phone.cookie).toContain('ullage.browser');
  });

  test('a recovery code opens once; new ones put the old out', async () => {
    const visitor = firm.of.auditor;
    const { codes } = await turnOn(visitor);
    expect(codes).toHaveLength(10);
    const by = async (code: string | undefined) => {
      const phone = new Visitor(api, visitor.email);
      await signIn(phone);
      return (await phone.post('/v1/auth/two-factor/verify-backup-code', { code })).status;
    };
    expect(await by(codes[0])).toBe(200);
    expect(await by(codes[0])).toBe(401);
    expect((await visitor.post('/v1/auth/two-factor/generate-backup-codes', { password: 'not the one' })).status).toBe(
      400,
    );
    await expectOk(visitor.post('/v1/auth/two-factor/generate-backup-codes', { password: PASSWORD }));
    expect(await by(codes[1])).toBe(401);
  });

  test('ten wrong codes in a row hold it up, the right one too', async () => {
    const visitor = new Visitor(api);
    await visitor.signUp();
    await visitor.found('Guessed at');
    const { secret } = await turnOn(visitor);
    const wrong = async () => {
      const phone = new Visitor(api, visitor.email);
      await signIn(phone);
      return (await phone.post('/v1/auth/two-factor/verify-totp', { code: '000000' })).status;
    };
    for (let i = 0; i < 5; i++) expect(await wrong()).toBe(401);
    for (let i = 0; i < 5; i++) expect(await wrong()).toBe(401);
    const phone = new Visitor(api, visitor.email);
    const asked = await signIn(phone);
    if (asked.status === 200)
      expect((await phone.post('/v1/auth/two-factor/verify-totp', { code: totp(secret) })).status).toBe(429);
    else expect(asked.status).toBe(429);
    expect((await phone.get('/v1/books')).status).toBe(401);
  });

  test('is turned off with the password, and taken away for whoever lost phone and codes', async () => {
    const { owner, dispatcher, manager } = firm.of;
    await turnOn(owner);
    expect((await owner.post('/v1/auth/two-factor/disable', { password: 'not the one' })).status).toBe(400);
    await expectOk(owner.post('/v1/auth/two-factor/disable', { password: PASSWORD }));
    expect((await accountOf(owner)).secondFactor).toBe(false);
    await turnOn(dispatcher);
    await turnOn(owner);
    const list = (await expectOk(manager.get('/v1/sign-ins'))).json() as {
      items: { personId: string; secondFactor: boolean }[];
    };
    const id = await personOf(dispatcher);
    expect(list.items.find(({ personId }) => personId === id)?.secondFactor).toBe(true);
    expect((await manager.ask('DELETE', `/v1/people/${await personOf(owner)}/second-factor`)).status).toBe(403);
    await expectOk(manager.ask('DELETE', `/v1/people/${id}/second-factor`));
    expect((await manager.ask('DELETE', `/v1/people/${id}/second-factor`)).status).toBe(422);
    const phone = new Visitor(api, dispatcher.email);
    await signIn(phone);
    expect((await phone.get('/v1/books')).status).toBe(200);
  });

  test('neither secret nor codes stand in the database as they are', async () => {
    const visitor = new Visitor(api);
    await visitor.signUp();
    await visitor.found('Kept');
    const { secret, codes } = await turnOn(visitor);
    const { rows } = await api.admin.query('SELECT t::text AS line FROM auth."twoFactor" t');
    const kept = JSON.stringify(rows);
    for (const text of [secret, ...codes]) expect(kept).not.toContain(text);
  });
});
