import type { CommandBody } from '@ullage/contracts';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Scene } from '../support/bodies.ts';
import { openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
});

/** What was sent is kept and given back as it came; everything else is for reading. */
const AS_SENT = new Set(['body', 'envelope']);
const DAY = /\d{4}-\d{2}-\d{2}/;
/** A value of its own (a day, an instant, a version, a key), which a screen puts into words: no blank in it. */
const isValue = (text: string): boolean => !text.includes(' ');

/** Every sentence in an answer that says a day as a machine writes it, with where it stands. */
function machineDays(answer: unknown, at = ''): string[] {
  if (typeof answer === 'string') return DAY.test(answer) && !isValue(answer) ? [`${at}: ${answer}`] : [];
  if (typeof answer !== 'object' || answer === null) return [];
  return Object.entries(answer).flatMap(([key, value]) => (AS_SENT.has(key) ? [] : machineDays(value, `${at}/${key}`)));
}

test('the check bites, and leaves values alone', () => {
  expect(machineDays({ why: 'Due by 2026-05-30.', dueOn: '2026-05-30', key: 'us-hfc|repair|2026-04-30|1' })).toEqual([
    '/why: Due by 2026-05-30.',
  ]);
});

describe('no sentence of an answer says a day as a machine writes it', () => {
  const owner = () => firm.actors.owner;
  const circuit = async () => (await office.unit(owner(), scene.of.unit)).circuits[0];
  const views: Readonly<Record<string, () => Promise<unknown>>> = {
    unit: () => office.unit(owner(), scene.of.unit),
    visit: () => office.visit(owner(), scene.of.visit),
    'visit on site': () => office.visit(owner(), scene.onSite),
    returns: () => office.returns(owner(), {}),
    'service record': () => office.serviceRecord(owner(), scene.of.visit),
    sheet: async () => office.leakRateSheet(owner(), (await circuit())?.latest?.id ?? ''),
    cylinder: () => office.cylinder(owner(), scene.of.recovery),
    cylinders: () => office.cylinders(owner(), {}),
    units: () => office.units(owner(), {}),
    attention: () => office.attention(owner()),
    books: () => office.books(owner()),
  };
  test.each(Object.keys(views))('%s', async (name) => {
    expect(machineDays(await views[name]?.())).toEqual([]);
  });
  test('and the day is there, in words', async () =>
    expect((await circuit())?.duties.map(({ why }) => why).join(' ')).toContain('The addition of 30 Apr 2026 showed'));
});

test('a refusal says its days in words too, in the site’s zone', async () => {
  const { version } = (await office.visit(firm.actors.owner, scene.proposed)).visit;
  const place = (over: Partial<CommandBody<'place-visit'>>) =>
    firm.send('dispatcher', 'place-visit', {
      ...{ visitId: scene.proposed, version, personId: scene.of.technician, minutes: 60, time: '09:00' },
      day: '2026-05-05',
      ...over,
    });
  const over = await refusalOf(place({ personId: scene.of.apprentice, day: '2027-07-05' }));
  expect(over.message).toContain('The apprenticeship ended on 31 May 2027');
  await place({});
  // 09:00 in Denver, not the 15:00 of UTC.
  const lost = await refusalOf(place({ day: '2026-05-06' }));
  expect(lost.message).toContain('5 May 2026, 09:00');
});
