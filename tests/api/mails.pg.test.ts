import { createOffice } from '@ullage/casework';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, beforeEach, expect, test } from 'vitest';
import { aFirm, expectOk, PASSWORD, Visitor } from '../support/api-people.ts';
import type { Answer, Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';
import { headerOf, openMailServer } from '../support/smtp.ts';
import type { Received } from '../support/smtp.ts';

const server = await openMailServer();
const calendar = makeCalendar(Temporal);
const api = await runApi({
  smtpUrl: server.url,
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
const withoutMail = await runApi();
let firm: Firm;
beforeAll(async () => {
  // Its people join by links that are shown: the mail server is away.
  server.trouble = () => 'busy';
  firm = await aFirm(api, 'Coldwell <Refrigeration> & Sons');
  return () => server.close();
});
beforeEach(() => {
  server.received.length = 0;
  server.trouble = undefined;
});

const personOf = async ({ email }: Visitor): Promise<string> =>
  String((await api.admin.query('SELECT id FROM person WHERE email = $1', [email])).rows[0].id);
const linkIn = ({ text }: Received): string => /^http:\/\/localhost:3000\/\S+$/m.exec(text)?.[0] ?? '';
const mailTo = (email: string): Promise<Received> =>
  expect
    .poll(() => server.received.find(({ to }) => to[0] === email), { timeout: 5_000 })
    .toBeDefined()
    .then(() => server.received.find(({ to }) => to[0] === email) as Received);
const forgot = (email: string): Promise<Answer> =>
  new Visitor(api).post('/v1/password-resets', { email }, { key: false });
/** What a secret must not stand in. */
async function everythingWritten(): Promise<string> {
  const { rows } = await api.admin.query(`
    SELECT coalesce(string_agg(t, ' '), '') AS all FROM (
      SELECT a::text FROM audit a UNION ALL SELECT o::text FROM outbox o UNION ALL SELECT c::text FROM command c
      UNION ALL SELECT n::text FROM attention n UNION ALL SELECT f::text FROM feed f) AS every (t)`);
  return `${String(rows[0].all)} ${api.log.join(' ')}`;
}

test('an invitation goes to whom it is for, and its link is shown to nobody', async () => {
  const invited = new Visitor(api);
  const made = await expectOk(firm.of.owner.post('/v1/people/invitations', { email: invited.email, role: 'auditor' }));
  expect(made.json()).toMatchObject({ to: invited.email, mail: 'sent', url: null });
  const [mail, ...more] = server.received;
  expect([mail?.to, more]).toEqual([[invited.email], []]);
  expect(mail && headerOf(mail, 'subject')).toEqual(['Kim invites you to Coldwell <Refrigeration> & Sons']);
  expect(mail?.text).toMatch(
    /^Kim invites you to work in Ullage for Coldwell .* as an auditor, who may read everything/,
  );
  expect(mail?.html).toContain('Coldwell &lt;Refrigeration&gt; &amp; Sons');
  const link = linkIn(mail as Received);
  const secret = link.split('/').at(-1) ?? '';
  expect(made.text).not.toContain(secret);
  expect(await everythingWritten()).not.toContain(secret);
  await invited.signUp();
  await invited.accept(link);
  expect((await invited.get('/v1/me')).json()['role']).toBe('auditor');
});

test('an owner’s reset goes to the account’s address, says from whom it comes, and works once', async () => {
  const { owner, dispatcher } = firm.of;
  const answer = await expectOk(owner.post(`/v1/people/${await personOf(dispatcher)}/reset-link`));
  expect(answer.json()).toEqual({ to: dispatcher.email, mail: 'sent', url: null });
  const [mail] = server.received;
  expect(mail?.to).toEqual([dispatcher.email]);
  expect(mail?.text).toMatch(/^Kim of Coldwell <Refrigeration> & Sons had this sent to you/);
  const token =
    linkIn(mail as Received)
      .split('/')
      .at(-1) ?? '';
  expect(await everythingWritten()).not.toContain(token);
  await expectOk(new Visitor(api).post('/v1/auth/reset-password', { token, newPassword: 'another horse ten' }));
  expect((await dispatcher.get('/v1/me')).status).toBe(401);
});

test.each(['busy', 'address', 'silent', 'cut'] as const)(
  'when the mail cannot be sent (%s), whoever made the link is told and sees it once',
  async (trouble) => {
    server.trouble = () => trouble;
    const { owner, manager, warehouse } = firm.of;
    const email = `left-${trouble}@firm.example`;
    const made = (await expectOk(owner.post('/v1/people/invitations', { email, role: 'technician' }))).json();
    expect(made).toMatchObject({ to: email, mail: 'failed' });
    expect(
      (await new Visitor(api).get(String(made['url']).replace('http://localhost:3000/join', '/v1/invitations'))).status,
    ).toBe(200);
    const reset = (await expectOk(manager.post(`/v1/people/${await personOf(warehouse)}/reset-link`))).json();
    expect(reset).toMatchObject({ to: warehouse.email, mail: 'failed' });
    const token = String(reset['url']).split('/').at(-1) ?? '';
    expect(token).not.toBe('');
    // What is logged names neither the person nor the link.
    const told = api.log.filter((line) => line.includes('a link was not mailed'));
    expect(told.length).toBeGreaterThan(1);
    expect(told.join(' ')).not.toMatch(/left-|@firm|join|reset\//);
    expect(await everythingWritten()).not.toContain(token);
  },
);

test('without a mail server the links are shown once, and people are told so', async () => {
  server.trouble = () => 'busy';
  const { of } = await aFirm(withoutMail);
  const made = await expectOk(of.owner.post('/v1/people/invitations', { email: 'new@firm.example', role: 'auditor' }));
  expect(made.json()).toMatchObject({ to: 'new@firm.example', mail: 'off' });
  expect(made.json()['url']).toMatch(/^http:\/\/localhost:3000\/join\//);
  expect((await of.owner.get('/v1/people')).json()['mailsLinks']).toBe(false);
  expect((await firm.of.owner.get('/v1/people')).json()['mailsLinks']).toBe(true);
  const visitor = new Visitor(withoutMail);
  expect((await visitor.get('/v1/password-resets')).json()).toEqual({ byMail: false });
  const asked = await visitor.post('/v1/password-resets', { email: of.owner.email }, { key: false });
  expect([asked.status, asked.json()['detail']]).toEqual([
    422,
    'No mail is sent here: an owner or manager makes a link.',
  ]);
});

test('whoever forgot the password gets a mail at the account’s address, and chooses another by it, once', async () => {
  const visitor = new Visitor(api);
  await visitor.signUp();
  expect((await new Visitor(api).get('/v1/password-resets')).json()).toEqual({ byMail: true });
  await expectOk(forgot(visitor.email));
  const earlier =
    linkIn(await mailTo(visitor.email))
      .split('/')
      .at(-1) ?? '';
  server.received.length = 0;
  await expectOk(forgot(visitor.email.toUpperCase()));
  const mail = await mailTo(visitor.email);
  expect(mail.text).toMatch(/^Somebody asked for a new password/);
  const token = linkIn(mail).split('/').at(-1) ?? '';
  const chosen = { token, newPassword: 'another horse ten' };
  await expectOk(new Visitor(api).post('/v1/auth/reset-password', chosen));
  // Used, it takes the other with it.
  for (const used of [token, earlier]) {
    expect((await new Visitor(api).post('/v1/auth/reset-password', { ...chosen, token: used })).status).toBe(400);
  }
  const signIn = (password: string) =>
    new Visitor(api).post('/v1/auth/sign-in/email', { email: visitor.email, password });
  expect((await signIn(PASSWORD)).status).toBe(401);
  await expectOk(signIn(chosen.newPassword));
  expect(await everythingWritten()).not.toContain(token);
});

test('neither answer nor time tells whether an address has an account', async () => {
  const visitor = new Visitor(api);
  await visitor.signUp();
  // A second for the mail server would show, were it waited for.
  server.trouble = (to) => (to === '' ? 'silent' : undefined);
  const ask = async (email: string) => {
    const began = performance.now();
    const { status, text } = await forgot(email);
    return { status, text, ms: performance.now() - began };
  };
  const [known, unknown] = [await ask(visitor.email), await ask('nobody@firm.example')];
  expect([known.status, known.text]).toEqual([200, unknown.text]);
  expect(Math.max(known.ms, unknown.ms)).toBeLessThan(500);
  // The work goes on after the answer, and its failure is nobody's but the log's.
  await expect
    .poll(() => api.log.some((line) => line.includes('a reset was not mailed')), { timeout: 5_000 })
    .toBe(true);
});

test('an address is mailed five times an hour, known or not, and another is not held up', async () => {
  const visitor = new Visitor(api);
  await visitor.signUp();
  for (const email of [visitor.email, 'stranger@firm.example']) {
    for (let asked = 0; asked < 5; asked++) await expectOk(forgot(email));
    const refused = await forgot(email.toUpperCase());
    expect([refused.status, refused.json()['detail']]).toEqual([
      429,
      'Too many mails for this address: wait an hour, and look among the unwanted mail.',
    ]);
  }
  await expectOk(forgot('somebody-else@firm.example'));
  expect((await forgot('no address')).status).toBe(400);
});

test('a contractor’s invitations are mailed thirty times an hour, and then made no more', async () => {
  const owner = new Visitor(api);
  await owner.signUp();
  await owner.found('Rill Cooling');
  const invite = (n: number) => owner.post('/v1/people/invitations', { email: `s${n}@rill.example`, role: 'auditor' });
  for (let n = 0; n < 30; n++) await expectOk(invite(n));
  expect((await invite(30)).status).toBe(429);
  expect(server.received.filter(({ to }) => to[0]?.endsWith('@rill.example'))).toHaveLength(30);
  expect((await owner.get('/v1/people')).json()['invitations']).toHaveLength(30);
});

test('an api that leaves sends what it promised', async () => {
  const leaving = await runApi({ smtpUrl: server.url });
  const visitor = new Visitor(leaving, 'leaving@firm.example');
  await visitor.signUp();
  await expectOk(visitor.post('/v1/password-resets', { email: visitor.email }, { key: false }));
  await leaving.close();
  expect(server.received.flatMap(({ to }) => to).filter((to) => to === visitor.email)).toHaveLength(1);
});
