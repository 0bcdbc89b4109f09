import { openAuthPool, refuseDemoInPublic } from '@ullage/api';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, expectOk, PASSWORD, Visitor } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { newId, ORIGIN, runApi } from '../support/api-run.ts';

const api = await runApi();
let firm: Firm;
let other: Firm;
beforeAll(async () => {
  firm = await aFirm(api, 'Coldwell Refrigeration');
  other = await aFirm(api, 'Nordbach Cooling');
});
const personOf = async (visitor: Visitor, tenantId: string): Promise<string> => {
  const found = await api.admin.query('SELECT id FROM person WHERE tenant_id = $1 AND email = $2', [
    tenantId,
    visitor.email,
  ]);
  return String(found.rows[0].id);
};
const newcomer = async (): Promise<Visitor> => {
  const visitor = new Visitor(api);
  await visitor.signUp();
  return visitor;
};

test('a link joins once, and only the person it was made for', async () => {
  const [invited, somebodyElse] = [await newcomer(), await newcomer()];
  const url = await firm.of.manager.invite(invited.email, 'technician');
  const id = url.split('/').at(-1);
  expect(url).toBe(`http://localhost:3000/join/${id}`);
  const body = { invitationId: id };
  expect((await somebodyElse.post('/v1/auth/organization/accept-invitation', body)).status).toBe(403);
  await invited.accept(url);
  const again = await invited.post('/v1/auth/organization/accept-invitation', body);
  expect(again.status).toBe(400);
  expect(again.headers['content-type']).toBe('application/problem+json; charset=utf-8');
});

test('a link ends after seven days', async () => {
  const invited = await newcomer();
  const url = await firm.of.owner.invite(invited.email, 'dispatcher');
  const id = url.split('/').at(-1);
  const kept = await api.admin.query(
    `SELECT round(extract(epoch FROM "expiresAt" - "createdAt") / 86400) AS days FROM auth.invitation WHERE id = $1`,
    [id],
  );
  expect(Number(kept.rows[0].days)).toBe(7);
  await api.admin.query(`UPDATE auth.invitation SET "expiresAt" = now() - interval '1 second' WHERE id = $1`, [id]);
  expect((await invited.post('/v1/auth/organization/accept-invitation', { invitationId: id })).status).toBe(400);
  expect((await invited.get(`/v1/invitations/${id}`)).status).toBe(404);
});

test('whoever has the link sees who invites whom, before signing in; a used or unknown one is the same 404', async () => {
  const invited = await newcomer();
  const url = await firm.of.owner.invite(invited.email, 'warehouse');
  const told = await new Visitor(api).get(url.replace('http://localhost:3000/join', '/v1/invitations'));
  expect(told.json()).toMatchObject({
    contractor: 'Coldwell Refrigeration',
    email: invited.email,
    role: 'warehouse',
  });
  await invited.accept(url);
  const used = await new Visitor(api).get(url.replace('http://localhost:3000/join', '/v1/invitations'));
  const unknown = await new Visitor(api).get('/v1/invitations/1d4f8a0e-6f0c-4c57-9f1a-2b6d7c0a9e55');
  expect([used.status, used.text]).toEqual([404, unknown.text]);
});

test('lists never carry what opens an invitation, and only who manages people sees any', async () => {
  const { owner, technician, auditor } = firm.of;
  const secret = (await owner.invite('pending@firm.example', 'manager')).split('/').at(-1) ?? '';
  const seen = await owner.get('/v1/people');
  expect(seen.text).toContain('pending@firm.example');
  expect(seen.text).not.toContain(secret);
  for (const visitor of [technician, auditor]) {
    expect((await visitor.get('/v1/people')).json()['invitations']).toEqual([]);
  }
});

test('a withdrawn invitation no longer joins; the handle of another contractor is unknown', async () => {
  const invited = await newcomer();
  const made = (
    await expectOk(firm.of.owner.post('/v1/people/invitations', { email: invited.email, role: 'auditor' }))
  ).json();
  const handle = String(made['id']);
  const foreign = await other.of.owner.ask('DELETE', `/v1/people/invitations/${handle}`);
  const unknown = await other.of.owner.ask('DELETE', `/v1/people/invitations/${'0'.repeat(32)}`);
  expect([foreign.status, foreign.text]).toEqual([404, unknown.text]);
  await expectOk(firm.of.owner.ask('DELETE', `/v1/people/invitations/${handle}`));
  const invitationId = String(made['url']).split('/').at(-1);
  expect((await invited.post('/v1/auth/organization/accept-invitation', { invitationId })).status).toBe(400);
});

test('a manager neither makes nor unmakes an owner', async () => {
  const { owner, manager, dispatcher } = firm.of;
  const [ownerId, dispatcherId] = [await personOf(owner, firm.tenantId), await personOf(dispatcher, firm.tenantId)];
  expect((await manager.post('/v1/people/invitations', { email: 'x@firm.example', role: 'owner' })).status).toBe(403);
  expect((await manager.post(`/v1/people/${dispatcherId}/role`, { role: 'owner' })).status).toBe(403);
  expect((await manager.post(`/v1/people/${ownerId}/role`, { role: 'technician' })).status).toBe(403);
  expect((await manager.post(`/v1/people/${ownerId}/reset-link`)).status).toBe(403);
  expect((await manager.ask('DELETE', `/v1/people/${ownerId}/sign-in`)).status).toBe(422);
  expect((await owner.get('/v1/me')).json()['role']).toBe('owner');
});

test('a reset link sets one new password once, and ends the sessions of the old', async () => {
  const { owner, dispatcher } = firm.of;
  const id = await personOf(dispatcher, firm.tenantId);
  const url = String((await expectOk(owner.post(`/v1/people/${id}/reset-link`))).json()['url']);
  const token = url.replace('http://localhost:3000/reset/', '');
  const chosen = { token, newPassword: 'another horse ten' };
  await expectOk(new Visitor(api).post('/v1/auth/reset-password', chosen));
  expect((await dispatcher.get('/v1/me')).status).toBe(401);
  expect((await new Visitor(api).post('/v1/auth/reset-password', chosen)).status).toBe(400);
  const again = new Visitor(api, dispatcher.email);
  expect((await again.post('/v1/auth/sign-in/email', { email: again.email, password: PASSWORD })).status).toBe(401);
  await expectOk(again.post('/v1/auth/sign-in/email', { email: again.email, password: chosen.newPassword }));
});

test('no contractor can open an account that also works for another', async () => {
  const shared = new Visitor(api, firm.of.technician.email);
  await shared.signIn();
  await shared.accept(await other.of.owner.invite(shared.email, 'technician'));
  const id = await personOf(shared, other.tenantId);
  const refused = await other.of.owner.post(`/v1/people/${id}/reset-link`);
  expect(refused.status).toBe(422);
  expect(refused.json()['detail']).toBe('This account belongs to another contractor too: no reset link from here.');
});

test('another contractor’s person answers byte for byte as one that does not exist', async () => {
  const foreign = await personOf(other.of.manager, other.tenantId);
  const { owner } = firm.of;
  for (const ask of [
    (id: string) => owner.post(`/v1/people/${id}/reset-link`),
    (id: string) => owner.post(`/v1/people/${id}/role`, { role: 'auditor' }),
    (id: string) => owner.ask('DELETE', `/v1/people/${id}/sign-in`),
    (id: string) => owner.post('/v1/people/invitations', { email: 'new@firm.example', role: 'auditor', personId: id }),
  ]) {
    const [there, nowhere] = [await ask(foreign), await ask(newId())];
    expect([there.status, there.text]).toEqual([404, nowhere.text]);
  }
  expect((await other.of.manager.get('/v1/me')).json()['role']).toBe('manager');
});

test('the library’s own routes for members and settings are closed', async () => {
  const { owner } = firm.of;
  for (const path of [
    'invite-member',
    'update-member-role',
    'remove-member',
    'update',
    'delete',
    'leave',
    'add-member',
    'cancel-invitation',
  ]) {
    const answer = await owner.post(`/v1/auth/organization/${path}`, { organizationId: firm.tenantId });
    expect([path, answer.status]).toEqual([path, 404]);
  }
  const demo = { name: 'Firm', metadata: { timeZone: 'America/Denver', demo: true } };
  expect((await (await newcomer()).post('/v1/auth/organization/create', demo)).status).toBe(400);
});

test('the session’s cookie is renewed by our own routes too', async () => {
  const { manager } = firm.of;
  expect((await manager.get('/v1/me')).headers['set-cookie']).toBeUndefined();
  await api.admin.query(
    `UPDATE auth.session SET "expiresAt" = now() + interval '10 days'
     WHERE "userId" = (SELECT id FROM auth."user" WHERE email = $1)`,
    [manager.email],
  );
  const renewed = await manager.get('/v1/me');
  expect(String(renewed.headers['set-cookie'])).toMatch(/^ullage\.session_token=.*Max-Age=2592000/);
});

test('the same invitation sent twice is made once; another under the same key is refused', async () => {
  const { owner } = firm.of;
  const key = newId();
  const invite = (email: string) => owner.post('/v1/people/invitations', { email, role: 'auditor' }, { key });
  const [first, second] = await Promise.all([invite('twice@firm.example'), invite('twice@firm.example')]);
  expect([first.status, second.text]).toEqual([200, first.text]);
  expect((await invite('other@firm.example')).json()).toMatchObject({ type: '/problems/command-changed', status: 409 });
  const made = await api.admin.query(`SELECT FROM auth.invitation WHERE email = 'twice@firm.example'`);
  expect(made.rowCount).toBe(1);
  const written = await api.admin.query('SELECT action, detail FROM audit WHERE command_id = $1', [key]);
  expect(written.rows).toEqual([{ action: 'invite', detail: { email: 'twice@firm.example', role: 'auditor' } }]);
});

test('a role that changed and a sign-in taken away stand in the audit trail, with who did it', async () => {
  const { owner, auditor } = firm.of;
  const id = await personOf(auditor, firm.tenantId);
  await expectOk(owner.post(`/v1/people/${id}/role`, { role: 'warehouse' }));
  await expectOk(owner.ask('DELETE', `/v1/people/${id}/sign-in`));
  const written = await api.admin.query(
    `SELECT a.action, a.detail, u.email AS by, a.address FROM audit a JOIN auth."user" u ON u.id = a.user_id
     WHERE a.tenant_id = $1 AND a.record_id = $2 ORDER BY a.at, a.action`,
    [firm.tenantId, id],
  );
  expect(written.rows).toEqual([
    { action: 'change-role', detail: { role: 'warehouse' }, by: owner.email, address: '127.0.0.1' },
    { action: 'remove-sign-in', detail: {}, by: owner.email, address: '127.0.0.1' },
  ]);
});

test('a session that was signed out or ran out is nobody’s, for us and for the library alike', async () => {
  const visitor = await newcomer();
  await visitor.found();
  const kept = visitor.cookie;
  const ask = (cookie: string) => api.app.inject({ url: '/v1/me', headers: { cookie } });
  expect((await ask(kept)).statusCode).toBe(200);
  await expectOk(visitor.post('/v1/auth/sign-out', {}));
  expect((await ask(kept)).statusCode).toBe(401);
  await visitor.signIn();
  await api.admin.query(
    `UPDATE auth.session SET "expiresAt" = now() - interval '1 second'
     WHERE "userId" = (SELECT id FROM auth."user" WHERE email = $1)`,
    [visitor.email],
  );
  expect((await visitor.get('/v1/me')).status).toBe(401);
  expect((await visitor.get('/v1/auth/get-session')).text).toBe('null');
});

test('a database with demo accounts is not put before the public unless somebody says so', async () => {
  const pool = openAuthPool(api.db.urls.auth, () => undefined);
  const here = { host: '127.0.0.1', publicOrigin: ORIGIN, demoInPublic: false };
  const there = { ...here, publicOrigin: 'https://ullage.firm.example' };
  await refuseDemoInPublic(pool, there);
  await api.admin.query(
    `INSERT INTO auth.organization (name, slug, metadata, "createdAt")
     VALUES ('Demo', 'demo', '{"timeZone":"America/Denver","demo":true}', now())`,
  );
  await refuseDemoInPublic(pool, here);
  await expect(refuseDemoInPublic(pool, there)).rejects.toThrow(/demo accounts/);
  await expect(refuseDemoInPublic(pool, { ...here, host: '0.0.0.0' })).rejects.toThrow(/demo accounts/);
  await refuseDemoInPublic(pool, { ...there, demoInPublic: true });
  await pool.end();
});
