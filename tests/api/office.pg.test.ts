import { allRoutes, openApiOf } from '@ullage/api';
import { createOffice } from '@ullage/casework';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, describe, expect, test } from 'vitest';
import { checksums } from '../support/api-checksums.ts';
import { aFirm, expectOk } from '../support/api-people.ts';
import type { Answer, Firm, Visitor } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';
import { validatorOf } from '../support/api-schema.ts';
import type { OpenApi } from '../support/api-schema.ts';

const calendar = makeCalendar(Temporal);
const api = await runApi({
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
const document = openApiOf(allRoutes(api.app)) as unknown as OpenApi;

const ids = {
  customer: newId(),
  site: newId(),
  unit: newId(),
  circuit: newId(),
  visit: newId(),
  cylinder: newId(),
  person: '',
  account: '',
};
const lb = (value: string) => ({ value, unit: 'lb' });
const day = (daysAgo: number): string =>
  calendar.addDays(calendar.dayOf(calendar.fromEpochMs(Date.now()), 'America/Denver'), -daysAgo);
const call = {
  body: {
    customer: { id: ids.customer, new: { name: 'Halloran <Foods> & Sons' } },
    site: {
      id: ids.site,
      new: { address: '410 Aspen Way, Leadville', timeZone: 'America/Denver', elevationM: 1600 },
    },
    unit: { id: ids.unit, new: { tag: '0417' } },
    circuit: {
      id: ids.circuit,
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: lb('220'), method: 'manufacturer' },
      },
    },
    history: [
      { id: newId(), onDay: day(200), mass: null, by: 'us' },
      { id: newId(), onDay: day(75), mass: lb('18'), by: 'us' },
    ],
    visit: { id: ids.visit, symptom: 'Short of gas again' },
  },
};
const cylinder = {
  body: {
    cylinderId: ids.cylinder,
    kind: 'refillable',
    specification: 'DOT-4BA400',
    serial: 'C-1001',
    waterCapacity: lb('47.7'),
    tare: lb('28'),
    gas: { refrigerant: 'R-448A', state: 'new', gross: lb('68') },
  },
};

let firm: Firm;
let other: Firm;
const callKey = newId();
const REGISTER = newId();
beforeAll(async () => {
  firm = await aFirm(api);
  other = await aFirm(api);
  await expectOk(firm.of.dispatcher.post('/v1/commands/take-call', call, { key: callKey }));
  await expectOk(firm.of.technician.post('/v1/commands/register-cylinder', cylinder));
  const people = (await expectOk(firm.of.owner.get('/v1/people'))).json()['items'] as { id: string; email: string }[];
  ids.person = people.find(({ email }) => email === firm.of.technician.email)?.id ?? '';
  const registered = {
    body: {
      personId: ids.person,
      name: 'Kim',
      email: firm.of.technician.email,
      certificates: [{ id: newId(), scheme: 'us-608', type: 'universal' }],
    },
  };
  await expectOk(firm.of.owner.post('/v1/commands/register-person', registered));
  const books = (await expectOk(firm.of.owner.get('/v1/books'))).json();
  const accounts = books['accounts'] as { id: string; title: string }[];
  ids.account = accounts.find(({ title }) => title === 'C-1001')?.id ?? '';
});

const reads = (): [path: string, url: string][] => [
  ['/v1/me', '/v1/me'],
  ['/v1/people', '/v1/people'],
  ['/v1/places', '/v1/places?query=hall'],
  ['/v1/units', '/v1/units'],
  ['/v1/units/{id}', `/v1/units/${ids.unit}`],
  ['/v1/visits', '/v1/visits'],
  ['/v1/visits/{id}', `/v1/visits/${ids.visit}`],
  [
    '/v1/visits/{id}/evacuation',
    `/v1/visits/${ids.visit}/evacuation?circuitId=${ids.circuit}&part=isolated&openLeak=true&evacuateAfter=true&machineMadeOn=2020-01-01`,
  ],
  ['/v1/visits/{id}/service-record', `/v1/visits/${ids.visit}/service-record`],
  ['/v1/returns', '/v1/returns'],
  ['/v1/cylinders', '/v1/cylinders?query=C-1001&gas=R-448A&doubt=undoubted'],
  ['/v1/cylinders/{id}', `/v1/cylinders/${ids.cylinder}`],
  ['/v1/manifests', '/v1/manifests'],
  ['/v1/books', '/v1/books'],
  ['/v1/books/period', '/v1/books/period?from=2026-01-01&to=2026-12-31'],
  ['/v1/books/period/accounts', '/v1/books/period/accounts?refrigerant=R-448A'],
  ['/v1/books/{id}', `/v1/books/${ids.account}?refrigerant=R-448A`],
  ['/v1/attention', '/v1/attention'],
  ['/v1/notices', '/v1/notices'],
  ['/v1/changes', '/v1/changes?epoch=1&number=0'],
];

describe('what the office answers is what the document promises, to the auditor too', () => {
  test.each(reads().map(([path]) => path))('%s', async (path) => {
    const url = reads().find(([each]) => each === path)?.[1] ?? '';
    const answer = await firm.of.auditor.get(url);
    expect([answer.status, answer.text]).toEqual([200, expect.any(String)]);
    const valid = validatorOf(document, { path, method: 'get', status: '200' });
    expect(valid(answer.json()), JSON.stringify(valid.errors)).toBe(true);
  });

  test.each(['suggestions', 'placing'])('%s of a visit, to the dispatcher', async (name) => {
    const answer = await expectOk(firm.of.dispatcher.get(`/v1/visits/${ids.visit}/${name}`));
    const valid = validatorOf(document, { path: `/v1/visits/{id}/${name}`, method: 'get', status: '200' });
    expect(valid(answer.json()), JSON.stringify(valid.errors)).toBe(true);
    if (name === 'suggestions') expect(answer.json()['offers']).toEqual([expect.objectContaining({ name: 'Kim' })]);
  });

  test('the sheet of the unit’s calculation', async () => {
    const unit = (await firm.of.owner.get(`/v1/units/${ids.unit}`)).json();
    const [circuit] = unit['circuits'] as { latest: { id: string; ratePercent: string } | null }[];
    expect(circuit?.latest?.ratePercent).toBe('8.18');
    const sheet = await firm.of.owner.get(`/v1/sheets/${circuit?.latest?.id}`);
    const valid = validatorOf(document, { path: '/v1/sheets/{id}', method: 'get', status: '200' });
    expect(valid(sheet.json()), JSON.stringify(valid.errors)).toBe(true);
    const nowhere = await other.of.owner.get(`/v1/sheets/${newId()}`);
    const foreign = await other.of.owner.get(`/v1/sheets/${circuit?.latest?.id}`);
    expect([foreign.status, foreign.text]).toEqual([404, nowhere.text]);
  });
});

test('the same command again is answered as the first time; other content under its id is refused', async () => {
  const again = await firm.of.dispatcher.post('/v1/commands/take-call', call, { key: callKey });
  expect(again.json()).toMatchObject({ id: callKey, outcome: 'already-applied' });
  const changed = { body: { ...call.body, visit: { ...call.body.visit, symptom: 'Another' } } };
  const refused = await firm.of.dispatcher.post('/v1/commands/take-call', changed, { key: callKey });
  expect([refused.status, refused.json()['type']]).toEqual([409, '/problems/command-changed']);
  const instrument = { body: { instrumentId: newId(), kind: 'detector', tag: 'D-7' } };
  const same = Array.from({ length: 4 }, () =>
    firm.of.technician.post('/v1/commands/register-instrument', instrument, { key: REGISTER }),
  );
  const outcomes = (await Promise.all(same)).map((answer) => String(answer.json()['outcome']));
  expect(outcomes.sort((a, b) => (a < b ? -1 : 1))).toEqual([...Array<string>(3).fill('already-applied'), 'applied']);
});

interface Wall {
  readonly what: string;
  ask(by: Visitor, id: string): Promise<Answer>;
  readonly id: () => string;
}
const onCircuit = (more: object) => ({ body: { visitId: ids.visit, circuitId: ids.circuit, ...more } });
const WALL: Wall[] = [
  { what: 'unit', id: () => ids.unit, ask: (by, id) => by.get(`/v1/units/${id}`) },
  { what: 'visit', id: () => ids.visit, ask: (by, id) => by.get(`/v1/visits/${id}`) },
  { what: 'service record', id: () => ids.visit, ask: (by, id) => by.get(`/v1/visits/${id}/service-record`) },
  { what: 'cylinder', id: () => ids.cylinder, ask: (by, id) => by.get(`/v1/cylinders/${id}`) },
  { what: 'statement', id: () => ids.account, ask: (by, id) => by.get(`/v1/books/${id}`) },
  { what: 'visits of a person', id: () => ids.person, ask: (by, id) => by.get(`/v1/visits?personId=${id}`) },
  {
    what: 'arriving at a visit',
    id: () => ids.visit,
    ask: (by, id) => by.post('/v1/commands/arrive', { body: { visitId: id } }),
  },
  {
    what: 'placing a visit',
    id: () => ids.visit,
    ask: (by, id) =>
      by.post('/v1/commands/place-visit', {
        body: { visitId: id, version: 1, personId: newId(), day: day(-1), time: '09:00', minutes: 60 },
      }),
  },
  {
    what: 'a charge into a circuit',
    id: () => ids.circuit,
    ask: (by, id) =>
      by.post('/v1/commands/record-charge', {
        body: {
          ...onCircuit({}).body,
          circuitId: id,
          cylinderId: newId(),
          before: lb('68'),
          after: lb('60'),
          full: 'no',
        },
      }),
  },
  {
    what: 'a weighing put right',
    id: () => ids.visit,
    ask: (by, id) =>
      by.post('/v1/commands/correct-weighing', { body: { factId: id, after: lb('60'), why: 'Misread' } }),
  },
  {
    what: 'an attention item',
    id: () => ids.visit,
    ask: (by, id) => by.post('/v1/commands/settle-attention', { body: { attentionId: id, how: 'leave-out' } }),
  },
  {
    what: 'a call from a known customer',
    id: () => ids.customer,
    ask: (by, id) =>
      by.post('/v1/commands/take-call', {
        body: { ...call.body, customer: { id }, visit: { id: newId() }, history: [] },
      }),
  },
];

describe('another contractor’s id answers byte for byte as one that does not exist', () => {
  test.each(WALL)('$what', async ({ ask, id }) => {
    const before = await checksums(api.admin);
    const nowhere = await ask(other.of.owner, newId());
    const foreign = await ask(other.of.owner, id());
    const stripped = (answer: Answer) => answer.text.replaceAll(/"now":"[^"]+"/g, '"now":""');
    expect([foreign.status, stripped(foreign)]).toEqual([nowhere.status, stripped(nowhere)]);
    expect(foreign.text).not.toContain('Halloran');
    expect(await checksums(api.admin)).toEqual(before);
  });
});

test('a manifest is answered as the document promises', async () => {
  const [receiverId, cylinderId] = [newId(), newId()];
  const lb = (value: string) => ({ value, unit: 'lb' });
  const send = (kind: string, body: object) => expectOk(firm.of.warehouse.post(`/v1/commands/${kind}`, { body }));
  await send('register-location', { locationId: receiverId, kind: 'reclaimer', name: 'Sage Reclaim', elevationM: 0 });
  await send('register-cylinder', {
    ...{ cylinderId, kind: 'recovery', specification: 'DOT-4BA400', serial: 'M-1' },
    ...{ waterCapacity: lb('47.6'), tare: lb('28') },
    gas: { refrigerant: 'R-22', state: 'recovered', gross: lb('50') },
  });
  const cylinders = [{ cylinderId, fromId: null, gross: lb('50') }];
  await send('record-shipment', { receiverId, purpose: 'reclaim', carrier: 'Own van', cylinders });
  const list = (await expectOk(firm.of.auditor.get('/v1/manifests'))).json();
  const [item] = list['items'] as { id: string; sentGrams: number }[];
  expect(item).toMatchObject({ receiver: 'Sage Reclaim', cylinders: 1, accepted: 0, sentGrams: 9_979 });
  const answer = await expectOk(firm.of.auditor.get(`/v1/manifests/${item?.id}`));
  const valid = validatorOf(document, { path: '/v1/manifests/{id}', method: 'get', status: '200' });
  expect(valid(answer.json()), JSON.stringify(valid.errors)).toBe(true);
});

test('a filter or a page that cannot be is refused in words, with the field', async () => {
  const asked = (query: string) => firm.of.owner.get(`/v1/cylinders?${query}`);
  for (const [query, field] of [
    ['doubt=perhaps', 'doubt'],
    ['site=the-shop', 'site'],
    ['place=the-shop', 'place'],
    ['after=2', 'after'],
    [`gas=${'x'.repeat(41)}`, 'gas'],
  ]) {
    const answer = await asked(query ?? '');
    expect([answer.status, answer.json()['errors']]).toMatchObject([400, [{ pointer: `#/${field}` }]]);
  }
  expect((await firm.of.owner.get(`/v1/books/${ids.account}?before=x`)).status).toBe(400);
});

test('what one contractor recorded is found by nobody else', async () => {
  expect((await other.of.owner.get('/v1/units')).json()['items']).toEqual([]);
  expect((await other.of.owner.get('/v1/places?query=hall')).json()).toEqual({ customers: [], sites: [], units: [] });
});

test('the auditor changes nothing: every command there is answers 403, and no row differs', async () => {
  const before = await checksums(api.admin);
  for (const route of allRoutes(api.app).filter(({ path }) => path.startsWith('/v1/commands/'))) {
    const body = route.path.endsWith('take-call') ? call : { body: { visitId: ids.visit, circuitId: ids.circuit } };
    expect((await firm.of.auditor.post(route.path, body)).status, route.path).toBe(403);
  }
  expect(await checksums(api.admin)).toEqual(before);
});

test('in a device’s push another contractor’s id needs attention in the same words as one that does not exist', async () => {
  const device = newId();
  const push = async (visitId: string, deviceSeq: number): Promise<Answer> => {
    const sentAt = new Date().toISOString();
    const id = newId();
    const envelope = { id, schema: 'arrive', device, deviceSeq, happenedAt: sentAt, body: { visitId } };
    return other.of.owner.post('/v1/sync/push', { sentAt, device, commands: [envelope] });
  };
  const plain = ({ text }: Answer): string =>
    text.replaceAll(/[0-9a-f]{8}-[0-9a-f-]{27}/g, '').replace(/"number":\d+/, '');
  const nowhere = await push(newId(), 1);
  const foreign = await push(ids.visit, 2);
  expect(nowhere.status).toBe(200);
  expect(nowhere.json()['answers']).toMatchObject([{ outcome: 'needs-attention' }]);
  expect(plain(foreign)).toBe(plain(nowhere));
  const valid = validatorOf(document, { path: '/v1/sync/push', method: 'post', status: '200' });
  expect(valid(foreign.json()), JSON.stringify(valid.errors)).toBe(true);
});
