import { createOffice } from '@ullage/casework';
import type { AttentionView, PeopleView, VisitView } from '@ullage/contracts';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, expectOk } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';

const calendar = makeCalendar(Temporal);
const api = await runApi({
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
const ZONE = 'America/Denver';
const visit = newId();
let firm: Firm;
let personId: string;

const command = (kind: string, body: object) => expectOk(firm.of.owner.post(`/v1/commands/${kind}`, { body }));
const person = async (): Promise<PeopleView['items'][number]> => {
  const { items } = (await firm.of.owner.get('/v1/people')).json() as PeopleView;
  return items.find(({ email }) => email === firm.of.technician.email)!;
};

beforeAll(async () => {
  firm = await aFirm(api);
  ({ id: personId } = await person());
  await command('take-call', {
    customer: { id: newId(), new: { name: 'Halloran Foods' } },
    site: { id: newId(), new: { address: '410 Aspen Way, Leadville', timeZone: ZONE, elevationM: 1600 } },
    unit: { id: newId(), new: { tag: '0417' } },
    circuit: {
      id: newId(),
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: { value: '220', unit: 'lb' }, method: 'manufacturer' },
      },
    },
    history: [],
    visit: { id: visit },
  });
  const universal = { id: newId(), scheme: 'us-608', type: 'universal', registeredOn: '2025-06-01' };
  const { name } = await person();
  await command('register-person', { personId, name, certificates: [universal] });
  const day = calendar.addDays(calendar.dayOf(calendar.fromEpochMs(Date.now()), ZONE), 9);
  // Whatever weekday that is: a reason that is not needed is not kept.
  const override = { 'outside-working-day': 'As agreed with the customer' };
  await command('place-visit', { visitId: visit, version: 1, personId, day, time: '10:00', minutes: 60, override });
});

test('a visit is not left behind by whoever loses the sign-in: it stays placed, says so, and waits for a person', async () => {
  expect(await person()).toMatchObject({ placedAhead: 1, signsIn: true });
  await expectOk(firm.of.owner.ask('DELETE', `/v1/people/${personId}/sign-in`));
  expect(await person()).toMatchObject({ active: false, signsIn: false, placedAhead: 1 });
  const { visit: head } = (await firm.of.owner.get(`/v1/visits/${visit}`)).json() as VisitView;
  expect(head).toMatchObject({ state: 'placed', people: [{ personId, certificates: 'has left' }] });
  const { items } = (await firm.of.owner.get('/v1/attention')).json() as AttentionView;
  expect(items).toMatchObject([{ reason: 'placed-on-left', subjectKind: 'visit', subjectId: visit, closedAt: null }]);
});
