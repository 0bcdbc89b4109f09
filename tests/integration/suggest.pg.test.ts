import pg from 'pg';
import { beforeAll, expect, test, vi } from 'vitest';
import type { CommandAnswer, CommandBody, OfferView } from '@ullage/contracts';
import type { Scene } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { told } from '../support/told.ts';

// Set before the first connection is made, so that every statement of the office is seen.
const statements = vi.spyOn(pg.Client.prototype, 'query');

let world: TestOffice;
let firm: Contractor;
let scene: Scene;
let visitId: string;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('17:00'));
  ({ firm, scene } = await told(world));
  const [item] = (await world.office.returns(firm.actors.dispatcher, {})).items;
  visitId = item!.visit.id;
}, 60_000);

const asked = (minutes?: number) =>
  world.office.suggestions(firm.actors.dispatcher, { visitId, ...(minutes === undefined ? {} : { minutes }) });
/** Just what a screen sends when an offer is chosen. */
const take = (
  { personId, day, time, which }: OfferView,
  { version, minutes }: { version: number; minutes: number },
): Promise<CommandAnswer> =>
  firm.send('dispatcher', 'place-visit', {
    visitId,
    version,
    personId,
    day,
    time,
    ...(which === null ? {} : { which }),
    minutes,
  });
const unplace = async (): Promise<void> => {
  const { version } = (await world.office.visit(firm.actors.owner, visitId)).visit;
  await firm.send('dispatcher', 'unplace-visit', { visitId, version });
};

/** A second technician with a stop on Monday at a place 10 km away, and the follow-up's site with coordinates. */
async function nearby(): Promise<void> {
  await world.sql('UPDATE site SET latitude = 39.7, longitude = -105 WHERE id = $1', [scene.of.site]);
  const [personId, stopId] = [newId(), newId()];
  const certificates: CommandBody<'register-person'>['certificates'] = [
    { id: newId(), scheme: 'us-608', type: 'universal', registeredOn: '2020-01-01' },
  ];
  await firm.send('manager', 'register-person', { personId, name: 'Ida Marsh', certificates });
  await firm.send('dispatcher', 'take-call', {
    customer: { id: newId(), new: { name: 'Fallow Market' } },
    site: {
      id: newId(),
      new: {
        address: '9 Reed Lane',
        timeZone: 'America/Denver',
        elevationM: 1600,
        coordinates: { latitude: 39.7, longitude: -105 + 10 / 85.56 },
      },
    },
    unit: { id: newId(), new: { tag: '0700' } },
    circuit: {
      id: newId(),
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: { value: '40', unit: 'lb' }, method: 'manufacturer' },
      },
    },
    history: [],
    visit: { id: stopId, symptom: 'Ice on the coil.' },
  });
  const stop = { visitId: stopId, version: 1, personId, day: '2026-05-04', time: '08:00', minutes: 60 };
  await firm.send('dispatcher', 'place-visit', stop);
}

test('the soonest working hour, and the stop next door on Monday; the apprentice is named with the rule', async () => {
  await nearby();
  const { offers, barred, minutes, version } = await asked();
  // Thursday 30 April 2026, 17:00: the working day is over. 10 km are 18 minutes; the way home is driven anyhow.
  expect(
    offers.map(({ name, day, time, driveMinutes, alsoNames }) => [name, day, time, driveMinutes, alsoNames]),
  ).toEqual([
    ['Rosa Quill', '2026-05-01', '07:00', 60, ['Ida Marsh']],
    ['Ida Marsh', '2026-05-04', '09:30', 18, []],
  ]);
  // Rosa Quill repaired it: to her the circuit is known, so she is offered before Ida Marsh.
  expect(offers[0]!.reasons.map(({ code }) => code)).toEqual(['soonest', 'slack', 'drive-alone', 'here-before']);
  expect(offers[1]!.reasons.map(({ text }) => text)).toContain('Drives 18 min more, after the stop at 9 Reed Lane.');
  // The legal edge is 11 May 00:00; less the end of work and one hour.
  const end = Date.parse(offers[1]!.startsAt) + minutes * 60_000;
  expect(offers[1]!.slackMinutes).toBe((Date.parse('2026-05-11T06:00:00Z') - end) / 60_000 - 60);
  expect(barred).toContainEqual({
    personId: scene.of.apprentice,
    name: 'Teo Finch',
    text: 'An apprentice works only beside a certified technician, on the same visit, all the time.',
    clause: '40 CFR 82.152, "Apprentice"; 82.161(a)',
  });
  expect(version).toBe((await world.office.visit(firm.actors.owner, visitId)).visit.version);
});

test('every offer is placed by the one command for placing, with no rule overridden', async () => {
  const { offers } = await asked();
  expect(offers.length).toBeGreaterThan(1);
  for (const i of offers.keys()) {
    const { offers: now, version, minutes } = await asked();
    expect(await take(now[i]!, { version, minutes })).toMatchObject({ outcome: 'applied' });
    const { visit } = await world.office.visit(firm.actors.owner, visitId);
    expect(visit).toMatchObject({ state: 'placed', startsAt: now[i]!.startsAt, minutes });
    await unplace();
  }
});

test('a longer visit is asked for by its length', async () => {
  const { offers, minutes } = await asked(600);
  expect(minutes).toBe(600);
  expect(offers.map(({ day, time }) => [day, time])).toEqual([['2026-05-01', '07:00']]);
  expect((await asked(601)).offers).toEqual([]);
});

test('an offer somebody else was faster than is refused, and the winner is named', async () => {
  const first = await asked();
  const second = await asked();
  await take(first.offers[1]!, first);
  await expect(take(second.offers[0]!, second)).rejects.toMatchObject({
    code: 'stale',
    message: expect.stringContaining('Ida Marsh'),
  });
  await unplace();
});

test('the ground says what the rules read: papers, stops, places and the window', async () => {
  const ground = await world.office.placingGround(firm.actors.dispatcher, visitId);
  expect(ground.visit).toMatchObject({
    visitId,
    purpose: 'follow-up',
    circuits: [{ appliance: 'stationary', pressureClass: 'high' }],
    duties: [{ dueAt: '2026-05-11T06:00:00.000Z', clause: expect.stringContaining('40 CFR 84.106') }],
    place: { latitude: 39.7, longitude: -105 },
  });
  const marsh = ground.people.find(({ certificates }) => certificates.some(({ type }) => type === 'universal'));
  expect(marsh?.stops).toMatchObject([{ label: '9 Reed Lane', startsAt: '2026-05-04T14:00:00.000Z', minutes: 60 }]);
});

test('a visit under way has no suggestions', async () => {
  for (const read of [
    world.office.suggestions(firm.actors.dispatcher, { visitId: scene.onSite }),
    world.office.placingGround(firm.actors.dispatcher, scene.onSite),
  ])
    await expect(read).rejects.toMatchObject({ code: 'not-possible' });
});

test('twenty people are asked about in as many statements as three', async () => {
  const count = async (read: () => Promise<unknown>): Promise<number> => {
    statements.mockClear();
    await read();
    return statements.mock.calls.length;
  };
  const ground = () => world.office.placingGround(firm.actors.dispatcher, visitId);
  const few = [await count(asked), await count(ground)];
  for (let i = 0; i < 17; i++) {
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type: 'II' as const }];
    await firm.send('manager', 'register-person', { personId: newId(), name: `Mate ${i}`, certificates });
  }
  expect([await count(asked), await count(ground)]).toEqual(few);
  expect(Math.min(...few), 'the statements were seen').toBeGreaterThan(5);
});
