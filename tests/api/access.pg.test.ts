import { COMMANDS, MAY, ROLES } from '@ullage/contracts';
import type { Permission } from '@ullage/contracts';
import { allRoutes, AUTH_ROUTES } from '@ullage/api';
import type { Route } from '@ullage/api';
import { beforeAll, describe, expect, test } from 'vitest';
import { aFirm, Visitor } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { asksOf } from '../support/asks.ts';
import { checksums } from '../support/api-checksums.ts';
import { newId, runApi } from '../support/api-run.ts';

const api = await runApi();
const routes = allRoutes(api.app);

const OWN_ACCOUNT = new Set(['/v1/account', '/v1/account/sessions', '/v1/account/sessions/:id']);
const PUBLIC = new Set(['/health/live', '/health/ready', '/metrics', '/v1/invitations/:secret', '/v1/password-resets']);
const MANAGED = new Set([
  'POST /v1/people/invitations',
  'DELETE /v1/people/invitations/:id',
  'POST /v1/people/:id/role',
  'DELETE /v1/people/:id/sign-in',
  'POST /v1/people/:id/reset-link',
  'DELETE /v1/people/:id/sessions',
  'DELETE /v1/people/:id/second-factor',
  'GET /v1/sign-ins',
  'POST /v1/keys',
  'DELETE /v1/keys/:id',
  'POST /v1/webhooks',
  'POST /v1/webhooks/:id/test',
  'POST /v1/webhooks/:id/state',
  'DELETE /v1/webhooks/:id',
]);

function ought(route: Route): Permission | 'nothing' | 'a session' | undefined {
  const { method, path } = route;
  if (PUBLIC.has(path)) return 'nothing';
  if (OWN_ACCOUNT.has(path)) return 'a session';
  return MANAGED.has(`${method} ${path}`) ? 'people.manage' : asksOf(route);
}

const urlOf = ({ path }: Route): string => path.replaceAll(/:\w+/g, () => newId());
/** The stream of changes never ends by itself. */
async function statusOf(route: Route, visitor: Visitor): Promise<number> {
  if (route.path === '/v1/changes/stream') {
    const stream = await api.app.inject({
      url: route.path,
      ...(visitor.cookie === '' ? {} : { headers: { cookie: visitor.cookie } }),
      payloadAsStream: true,
    });
    stream.stream().destroy();
    return stream.statusCode;
  }
  const body = route.method === 'POST' ? { body: {} } : {};
  const { status } = await visitor.ask(route.method as 'GET' | 'POST' | 'PUT' | 'DELETE', urlOf(route), body);
  return status;
}

let firm: Firm;
const stranger = new Visitor(api);
const unattached = new Visitor(api);
beforeAll(async () => {
  firm = await aFirm(api);
  await unattached.signUp();
});

test('there is a route for every command, and none that this table does not know', () => {
  const commands = routes.filter(({ path }) => path.startsWith('/v1/commands/'));
  expect(commands.map(({ path }) => path.slice('/v1/commands/'.length)).sort()).toEqual(Object.keys(COMMANDS).sort());
  expect(routes.filter((route) => ought(route) === undefined).map(({ method, path }) => `${method} ${path}`)).toEqual(
    [],
  );
});

describe.each(routes.map((route) => ({ name: `${route.method} ${route.path}`, route })))('$name', ({ route }) => {
  const asks = ought(route);

  test.each(ROLES)('%s', async (role) => {
    const status = await statusOf(route, firm.of[role]);
    const allowed = asks === 'nothing' || asks === 'a session' || (asks !== undefined && MAY[role].includes(asks));
    if (allowed) expect([401, 403, 500]).not.toContain(status);
    else expect(status).toBe(403);
  });

  test('somebody without a session, and somebody of no contractor', async () => {
    const without = await statusOf(route, stranger);
    const nobody = await statusOf(route, unattached);
    if (asks === 'nothing') expect([401, 403, 500]).not.toContain(without);
    else if (asks === 'a session') {
      expect(without).toBe(401);
      expect([401, 403, 500]).not.toContain(nobody);
    } else expect([without, nobody]).toEqual([401, 403]);
  });
});

test('the auditor is refused on every route that changes tenant data, and not a row differs', async () => {
  const noTenants: unknown[] = ['sums.ask', 'nothing', 'a session'];
  const unsafe = routes.filter((route) => route.method !== 'GET' && !noTenants.includes(ought(route)));
  expect(unsafe.length).toBeGreaterThan(Object.keys(COMMANDS).length);
  const before = await checksums(api.admin);
  for (const route of unsafe) expect(await statusOf(route, firm.of.auditor), route.path).toBe(403);
  expect(await checksums(api.admin)).toEqual(before);
  expect(Object.keys(before).length).toBeGreaterThan(30);
});

test('a removed member is out at the next request, and a changed role acts at the next request', async () => {
  const { owner, warehouse } = firm.of;
  const people = await api.admin.query('SELECT id FROM person WHERE email = $1', [warehouse.email]);
  const person = String(people.rows[0].id);
  expect((await warehouse.get('/v1/books')).status).toBe(200);
  expect((await owner.post(`/v1/people/${person}/role`, { role: 'auditor' })).status).toBe(200);
  expect((await warehouse.post('/v1/commands/register-cylinder', {})).status).toBe(403);
  expect((await owner.ask('DELETE', `/v1/people/${person}/sign-in`)).status).toBe(200);
  expect((await warehouse.get('/v1/books')).status).toBe(403);
  expect((await warehouse.get('/v1/auth/get-session')).status).toBe(200);
});

test('beside the routes above the server answers on the sign-in routes and the pages about itself, nowhere else', () => {
  const fastify = api.app.getHttpAdapter().getInstance();
  const known = new Set([
    ...routes.map(({ path }) => path),
    ...Object.keys(AUTH_ROUTES).map((path) => `/v1/auth${path}`),
    '/v1/openapi.json',
  ]);
  const served = pathsOf(fastify.printRoutes({ commonPrefix: false }));
  expect(served.length).toBeGreaterThan(routes.length / 2);
  expect(served.filter((path) => !known.has(path) && !path.startsWith('/v1/docs'))).toEqual([]);
});

/** Fastify prints its routes as a tree; one line per path once common prefixes are left alone. */
function pathsOf(tree: string): string[] {
  const stack: string[] = [];
  return tree.split('\n').flatMap((line) => {
    const found = /^([│ ]*)[├└]── (\S+)(?: \((.+)\))?/.exec(line);
    if (!found) return [];
    const depth = (found[1] ?? '').length / 4;
    stack.length = depth;
    stack.push(found[2] ?? '');
    return found[3] === undefined ? [] : [stack.join('')];
  });
}
