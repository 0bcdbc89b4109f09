import { Refusal } from '@ullage/contracts';
import { beforeAll, describe, expect, test } from 'vitest';
import { aFirm, PASSWORD, Visitor } from '../support/api-people.ts';
import type { Answer, Firm } from '../support/api-people.ts';
import { newId, ORIGIN, runApi } from '../support/api-run.ts';
import { fakeOffice } from '../support/api-office.ts';
import type { Asked } from '../support/api-office.ts';

const asked: Asked[] = [];
let thrown: unknown;
const api = await runApi({
  office: (parts) => {
    const office = fakeOffice(parts, asked);
    return {
      ...office,
      books: async (actor) => {
        if (thrown !== undefined) throw thrown;
        return office.books(actor);
      },
    };
  },
});
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
});

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-/i;
/** What every problem owes its reader. */
function expectProblem(answer: Answer, status: number, code: string): Record<string, unknown> {
  expect([answer.status, answer.text]).toEqual([status, expect.any(String)]);
  expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8');
  const problem = answer.json();
  expect(problem).toMatchObject({ type: `/problems/${code}`, title: expect.any(String), status });
  expect(answer.text).not.toMatch(UUID);
  expect(answer.text).not.toMatch(/auth\.|public\.|_pkey|_fkey|prisma|zod|fastify|invalid input|FST_/i);
  for (const words of wordsIn(problem)) expect(words.split(/\s+/).length, words).toBeLessThanOrEqual(20);
  return problem;
}
function wordsIn(problem: Record<string, unknown>): string[] {
  const errors = (problem['errors'] ?? []) as { pointer: string; detail: string }[];
  expect(errors.every(({ pointer }) => pointer.startsWith('#') && pointer.length <= 200)).toBe(true);
  return [problem['title'], problem['detail'], ...errors.map(({ detail }) => detail)].filter(
    (words): words is string => typeof words === 'string',
  );
}
const faultsOf = (answer: Answer): Record<string, string> =>
  Object.fromEntries(
    (answer.json()['errors'] as { pointer: string; detail: string }[]).map(({ pointer, detail }) => [pointer, detail]),
  );

const charge = (more: Record<string, unknown> = {}) => ({
  body: {
    visitId: newId(),
    circuitId: newId(),
    cylinderId: newId(),
    before: { value: '30.5', unit: 'lb' },
    after: { value: '12.5', unit: 'lb' },
    full: 'yes',
    ...more,
  },
});
const postCharge = (more: Record<string, unknown> = {}) =>
  firm.of.technician.post('/v1/commands/record-charge', charge(more));

describe('a command that is not right', () => {
  test('is refused field by field, each with what would be right', async () => {
    const answer = await postCharge({
      before: { value: '-3', unit: 'lb' },
      after: { value: '1.5', unit: 'g' },
      full: 'perhaps',
    });
    expectProblem(answer, 400, 'not-valid');
    expect(faultsOf(answer)).toEqual({
      '#/body/before/value': 'Gross before: cannot be below zero; enter what the scale showed.',
      '#/body/after/value': 'Gross after: a scale in grams shows whole grams.',
      '#/body/full': 'Full: say yes, no or unknown.',
    });
    expect(asked).toEqual([]);
  });

  test.each([
    ['an absurd mass', { before: { value: '900000', unit: 'lb' } }, '#/body/before/value'],
    ['sixteen ounces', { before: { value: '3 lb 16 oz', unit: 'lb-oz' } }, '#/body/before/value'],
    ['no mass', { before: undefined }, '#/body/before'],
    ['a unit that is none', { before: { value: '3', unit: 'stone' } }, '#/body/before/unit'],
    ['a field nobody knows', { password: 'x' }, '#/body'],
    ['a number where text belongs', { circuitId: 12 }, '#/body/circuitId'],
  ])('%s', async (_, more, pointer) => {
    const answer = await postCharge(more);
    expectProblem(answer, 400, 'not-valid');
    expect(Object.keys(faultsOf(answer))).toContain(pointer);
  });

  test('pounds and ounces are taken', async () => {
    expect((await postCharge({ before: { value: '30 lb 4 oz', unit: 'lb-oz' } })).status).toBe(200);
  });

  test('a time without an offset, a person without a name, a zone that does not exist', async () => {
    const time = await firm.of.technician.post('/v1/commands/arrive', {
      happenedAt: '2026-03-01T10:00:00',
      body: { visitId: newId() },
    });
    expectProblem(time, 400, 'not-valid');
    expect(faultsOf(time)['#/happenedAt']).toMatch(/^Time: give date and time with an offset/);
    const person = await firm.of.owner.post('/v1/commands/register-person', { body: { personId: newId(), name: ' ' } });
    expectProblem(person, 400, 'not-valid');
    expect(faultsOf(person)).toMatchObject({
      '#/body/name': 'Name: give text of 1 to 120 characters.',
      '#/body/certificates': 'Certificates: give a list.',
    });
    const visitor = new Visitor(api);
    await visitor.signUp();
    const zone = { name: 'Firm', metadata: { timeZone: 'America/Atlantis' } };
    const nowhere = await visitor.post('/v1/auth/organization/create', zone);
    expectProblem(nowhere, 400, 'not-valid');
    expect(faultsOf(nowhere)['#/metadata/timeZone']).toMatch(/^Time zone: this one does not exist/);
  });

  test('text of 100 kB, and a field whose name is 100 kB', async () => {
    const long = 'a'.repeat(100_000);
    const text = await firm.of.technician.post('/v1/commands/finish-visit', {
      body: { visitId: newId(), summary: long },
    });
    expectProblem(text, 400, 'not-valid');
    const name = await firm.of.technician.post('/v1/commands/arrive', { body: { visitId: newId(), [long]: 1 } });
    expectProblem(name, 400, 'not-valid');
    expect(name.text.length).toBeLessThan(1000);
  });

  test('HTML in a name is a name', async () => {
    const name = '<script>alert(1)</script> & Sons';
    const body = { body: { personId: newId(), name, certificates: [] } };
    expect((await firm.of.owner.post('/v1/commands/register-person', body)).status).toBe(200);
    expect(asked.at(-1)?.more).toEqual([expect.objectContaining({ received: body })]);
  });
});

describe('a request that cannot be read', () => {
  const push = (bytes: Buffer | string, headers: Record<string, string> = {}) =>
    firm.of.technician.ask('POST', '/v1/commands/arrive', { bytes, headers });

  test.each([
    ['half a document', '{"body":{', 'not-valid', 400],
    ['nothing', '', 'not-valid', 400],
    ['a list', '[]', 'not-valid', 400],
    ['a prototype', '{"__proto__":{"role":"owner"}}', 'not-valid', 400],
    ['broken UTF-8', Buffer.from([0x7b, 0x22, 0xc3, 0x28, 0x22, 0x3a, 0x31, 0x7d]), 'not-text', 400],
    ['more than 1 MB', JSON.stringify({ body: 'a'.repeat(1_100_000) }), 'too-large', 413],
  ])('%s', async (_, bytes, code, status) => {
    expectProblem(await push(bytes), status, code);
  });
  test('another kind of content', async () => {
    expectProblem(await push('visitId=1', { 'content-type': 'application/x-www-form-urlencoded' }), 415, 'not-valid');
  });
  test('an id in the address that is none, a query that is none', async () => {
    expectProblem(await firm.of.owner.get('/v1/units/7'), 400, 'not-valid');
    expectProblem(await firm.of.owner.get('/v1/visits?day=tomorrow'), 400, 'not-valid');
    expectProblem(await firm.of.owner.get(`/v1/units?query=${'a'.repeat(101)}`), 400, 'not-valid');
    expectProblem(await firm.of.owner.get('/v1/units/%ff'), 400, 'not-valid');
  });
  test('the same on the sign-in routes', async () => {
    const visitor = new Visitor(api);
    const url = '/v1/auth/sign-up/email';
    const bytes = Buffer.from([0x7b, 0x22, 0xc3, 0x28, 0x22, 0x3a, 0x31, 0x7d]);
    expectProblem(await visitor.ask('POST', url, { bytes }), 400, 'not-text');
    expectProblem(await visitor.ask('POST', url, { bytes: '{' }), 400, 'not-valid');
    expectProblem(await visitor.ask('POST', url, { bytes: `"${'a'.repeat(70_000)}"` }), 413, 'too-large');
    const short = await visitor.post(url, { name: 'Kim', email: 'kim', password: 'short' });
    expectProblem(short, 400, 'not-valid');
    expect(faultsOf(short)).toEqual({
      '#/email': 'E-mail: give an address, as kim@firm.example.',
      '#/password': 'Password: give at least 10 characters.',
    });
    const wrong = await visitor.post('/v1/auth/sign-in/email', { email: 'nobody@firm.example', password: PASSWORD });
    expectProblem(wrong, 401, 'not-signed-in');
  });
});

describe('a request that is not let in', () => {
  test('an unknown route, without a session and with one', async () => {
    for (const visitor of [new Visitor(api), firm.of.owner]) {
      expectProblem(await visitor.get('/v1/nothing-here'), 404, 'not-found');
      expectProblem(await visitor.post('/v1/commands/no-such-kind', {}), 404, 'not-found');
      expectProblem(await visitor.post('/v1/sums/no-such-sum', {}), 404, 'not-found');
    }
  });
  test('no key, and a key that is no UUID of version 7', async () => {
    const url = '/v1/commands/record-charge';
    expectProblem(await firm.of.technician.post(url, charge(), { key: false }), 400, 'key-missing');
    const four = 'b3f1c9a2-7f0e-4c57-9f1a-2b6d7c0a9e55';
    expectProblem(await firm.of.technician.post(url, charge(), { key: four }), 400, 'key-missing');
  });
  test('the key is the command’s id, and the body goes on as it came', async () => {
    const key = newId();
    const body = charge();
    expect((await firm.of.technician.post('/v1/commands/record-charge', body, { key })).json()['id']).toBe(key);
    expect(asked.at(-1)).toMatchObject({
      method: 'apply',
      actor: { tenantId: firm.tenantId, role: 'technician' },
      more: [{ id: key, kind: 'record-charge', received: body }],
    });
  });
  test('a page of another site cannot act with the visitor’s cookie', async () => {
    const headers = { origin: 'https://elsewhere.example' };
    expectProblem(
      await firm.of.technician.post('/v1/commands/record-charge', charge(), { headers }),
      403,
      'not-allowed',
    );
    expect((await firm.of.technician.get('/v1/me', { headers: { origin: ORIGIN } })).status).toBe(200);
  });
  test('a 404 has no word about what was asked for, and no two differ', async () => {
    const answers = await Promise.all(
      ['units', 'visits', 'cylinders', 'sheets'].map((noun) => firm.of.owner.get(`/v1/${noun}/${newId()}`)),
    );
    expect(answers.map(({ text }) => text)).toEqual(
      Array(4).fill('{"type":"/problems/not-found","title":"Not here","status":404}'),
    );
  });
});

describe('what the office throws', () => {
  const throwing = async (error: unknown): Promise<Answer> => {
    thrown = error;
    return firm.of.owner.get('/v1/books').finally(() => (thrown = undefined));
  };
  test('a refusal keeps its words, fields and rules', async () => {
    const text = 'No certificate of type II.';
    const rules = [{ whose: 'law', clause: '40 CFR 82.161', overridable: false, code: 'certificate', text } as const];
    const errors = [{ pointer: '#/personId', detail: 'Person: needs a certificate of type II.' }];
    const problem = expectProblem(
      await throwing(new Refusal('rule-forbids', 'An apprentice may not work alone.', { rules, errors })),
      422,
      'rule-forbids',
    );
    expect(problem).toMatchObject({ detail: 'An apprentice may not work alone.', rules, errors });
  });
  test('the same id with other content is a conflict', async () => {
    const answer = await throwing(new Refusal('command-changed', 'This id was used for something else.'));
    expectProblem(answer, 409, 'command-changed');
  });
  test('the unexpected says nothing of itself, and the log says where, not what', async () => {
    const before = api.log.length;
    const problem = expectProblem(await throwing(new Error('duplicate key: kim@firm.example')), 500, 'internal');
    expect(problem).toEqual({ type: '/problems/internal', title: 'Something broke here', status: 500 });
    const logged = api.log.slice(before).join('');
    expect(logged).toContain('problems.pg.test.ts');
    expect(logged).not.toContain('kim@');
  });
  test('a database that is away is 503, and worth another try', async () => {
    const answer = await throwing(Object.assign(new Error('connect'), { code: 'ECONNREFUSED' }));
    expectProblem(answer, 503, 'unavailable');
    expect(answer.headers['retry-after']).toBe('2');
  });
});
