import { createHash } from 'node:crypto';
import { ROLES } from '@ullage/contracts';
import { allRoutes, API_VERSION, openApiOf } from '@ullage/api';
import { beforeAll, describe, expect, test } from 'vitest';
import { aFirm, Visitor } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';
import { validatorOf } from '../support/api-schema.ts';
import type { OpenApi } from '../support/api-schema.ts';

const api = await runApi();
const routes = allRoutes(api.app);
const document = openApiOf(routes) as unknown as OpenApi;
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
});

const printOf = (shape: unknown): string =>
  createHash('sha256').update(JSON.stringify(shape)).digest('base64url').slice(0, 16);
const printsOf = (): string[] => [
  ...Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => `${method.toUpperCase()} ${path} ${printOf(operation)}`),
  ),
  ...Object.entries(document.components.schemas).map(([name, schema]) => `${name} ${printOf(schema)}`),
];

/** A fingerprint of each operation and each named shape is kept: the difference names what changed. */
test('the shape of the wire is the one kept under this version: another shape is another version', async () => {
  await expect(`${printsOf().join('\n')}\n`).toMatchFileSnapshot(`./wire/${API_VERSION}.txt`);
});

test('the document is served as it is made, with every route under /v1 and no id told twice', async () => {
  const served = await new Visitor(api).get('/v1/openapi.json');
  expect(served.json()).toEqual(JSON.parse(JSON.stringify(document)));
  expect(document.openapi).toBe('3.1.1');
  const told = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/g, ':$1')}`),
  );
  const there = routes.filter(({ path }) => path.startsWith('/v1/')).map(({ method, path }) => `${method} ${path}`);
  expect(told.sort()).toEqual(there.sort());
  const ids = JSON.stringify(document).match(/"operationId":"[^"]+"/g) ?? [];
  expect(new Set(ids).size).toBe(ids.length);
});

test('every reference in the document leads somewhere', () => {
  const referred = [...JSON.stringify(document).matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(([, name]) => name);
  expect(referred.length).toBeGreaterThan(50);
  expect([...new Set(referred)].filter((name) => !Object.hasOwn(document.components.schemas, name ?? ''))).toEqual([]);
});

const validator = (path: string, method: string, status: 'default' | '200') =>
  validatorOf(document, { path, method, status });

describe('answers are in the shape the document promises', () => {
  test.each(['me', 'people', 'books', 'attention', 'notices', 'places', 'units', 'visits', 'returns', 'cylinders'])(
    'GET /v1/%s',
    async (noun) => {
      const valid = validator(`/v1/${noun}`, 'get', '200');
      const answer = await firm.of.owner.get(`/v1/${noun}`);
      expect(answer.status).toBe(200);
      expect(valid(answer.json()), JSON.stringify(valid.errors)).toBe(true);
      // The check bites: the same without its first field is refused.
      const [first] = Object.keys(answer.json());
      const without = Object.fromEntries(Object.entries(answer.json()).filter(([key]) => key !== first));
      expect(valid(without)).toBe(false);
    },
  );
  test('a command, an invitation, a sum, a problem', async () => {
    const { owner, technician } = firm.of;
    const command = await technician.post('/v1/commands/arrive', { body: { visitId: newId() } });
    expect(validator('/v1/commands/arrive', 'post', '200')(command.json())).toBe(true);
    const link = await owner.post('/v1/people/invitations', { email: 'new@firm.example', role: ROLES[2] });
    expect(validator('/v1/people/invitations', 'post', '200')(link.json())).toBe(true);
    const sum = await owner.post('/v1/sums/saturation', { refrigerant: 'R-134a', temperatureK: 273.15 });
    expect(validator('/v1/sums/saturation', 'post', '200')(sum.json())).toBe(true);
    const problem = await technician.post('/v1/commands/arrive', {});
    expect(validator('/v1/commands/arrive', 'post', 'default')(problem.json())).toBe(true);
    const wrong = await owner.post('/v1/sums/saturation', { refrigerant: 'R-134a', temperatureK: -1 });
    expect([wrong.status, wrong.headers['content-type']]).toEqual([400, 'application/problem+json; charset=utf-8']);
    expect(validator('/v1/sums/saturation', 'post', 'default')(wrong.json())).toBe(true);
  });
});

test('the page that shows the document brings its own script and its own policy', async () => {
  const page = await new Visitor(api).get('/v1/docs/');
  expect(page.status).toBe(200);
  expect(page.headers['content-security-policy']).toContain("script-src 'self' 'unsafe-inline'");
  expect(page.text).not.toMatch(/(src|href)="https?:\/\//);
  const elsewhere = await firm.of.owner.get('/v1/me');
  expect(elsewhere.headers['content-security-policy']).toContain("default-src 'none'");
});
