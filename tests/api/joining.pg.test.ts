import { ROLES } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { aFirm, Visitor } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const api = await runApi();

test('who signs up and names a contractor owns a tenant in its time zone', async () => {
  const owner = new Visitor(api);
  await owner.signUp('Ada');
  expect((await owner.get('/v1/me')).status).toBe(403);
  const tenantId = await owner.found('Nordbach Cooling', 'America/Phoenix');
  const rows = await api.admin.query('SELECT name, time_zone, demo FROM tenant WHERE id = $1', [tenantId]);
  expect(rows.rows).toEqual([{ name: 'Nordbach Cooling', time_zone: 'America/Phoenix', demo: false }]);
  const me = await owner.get('/v1/me');
  expect(me.status).toBe(200);
  expect(me.json()).toMatchObject({ role: 'owner', tenant: { id: tenantId } });
});

test('one person of each role joins by link, and signs in to the same contractor again', async () => {
  const firm = await aFirm(api);
  for (const role of ROLES) {
    const again = new Visitor(api, firm.of[role].email);
    await again.signIn();
    expect((await again.get('/v1/me')).json()).toMatchObject({ role, tenant: { id: firm.tenantId } });
  }
  const people = await api.admin.query('SELECT role FROM person WHERE tenant_id = $1 ORDER BY role', [firm.tenantId]);
  expect(people.rows.map(({ role }) => role)).toEqual([...ROLES].sort());
});

test('twenty people signing up at once wait for each other and for nothing else', async () => {
  const crowd = Array.from({ length: 20 }, () => new Visitor(api));
  await Promise.all(crowd.map((visitor, index) => visitor.signUp(`Newcomer ${index}`)));
  const answers = await Promise.all(crowd.map((visitor) => visitor.get('/v1/me')));
  // Signed in, and of no contractor yet.
  expect(answers.map(({ status }) => status)).toEqual(crowd.map(() => 403));
});
