import pg from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CommandName } from '@ullage/contracts';
import { checksums } from '../support/api-checksums.ts';
import { bodiesOf } from '../support/bodies.ts';
import type { Bodies, Scene } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { expectPlainWords, faultsIn, refusalOf } from '../support/refused.ts';
import { theCall } from '../support/story.ts';
import { told } from '../support/told.ts';

const today = onDay('2026-04-30');
let world: TestOffice;
let admin: pg.Client;
let firm: Contractor;
let scene: Scene;
let bodies: Bodies;
beforeAll(async () => {
  world = await openTestOffice(today('17:00'));
  admin = new pg.Client({ connectionString: world.database.adminUrl });
  await admin.connect();
  ({ firm, scene } = await told(world));
  bodies = bodiesOf({ world, firm, scene });
}, 60_000);
afterAll(() => admin.end());

type Body = Record<string, unknown>;
let deviceSeq = 10;
const envelope = (schema: string, body: unknown, more: Body = {}) => ({
  id: newId(),
  schema,
  device: more['device'] ?? newId(),
  deviceSeq: deviceSeq++,
  happenedAt: world.clock.now,
  dependsOn: [],
  body,
  ...more,
});
/** A device's batch: something good, what is tried, something good. */
async function betweenGoodOnes(tried: Body) {
  const device = tried['device'] as string;
  const good = () => envelope('record-safety', { visitId: scene.onSite, checks: [], notDone: [] }, { device });
  const [before, after] = [{ ...good(), deviceSeq: 1 }, good()];
  const commands = [before, tried, after];
  const { answers } = await world.office.push(firm.actors.technician, { sentAt: world.clock.now, device, commands });
  expect(answers.map(({ outcome }) => outcome).sort()).toEqual(['applied', 'applied', 'needs-attention']);
  const { items } = await world.office.attention(firm.actors.owner);
  return { item: items.find(({ commandId }) => commandId === tried['id']), answers };
}
const g = (value: string) => ({ value, unit: 'g' });
const lb = (value: string) => ({ value, unit: 'lb' });

interface Wrong {
  readonly what: string;
  readonly kind: CommandName;
  readonly put: Body;
  readonly pointer: string;
  readonly says: string;
}
const charge = (what: string, put: Body, [pointer, says]: [string, string]): Wrong => ({
  what,
  kind: 'record-charge',
  put,
  pointer: `#/body/${pointer}`,
  says,
});
const field = (kind: CommandName, what: string, fault: { put: Body; at: string; says: string }): Wrong => ({
  what,
  kind,
  put: fault.put,
  pointer: `#/body/${fault.at}`,
  says: fault.says,
});

/** Sentences written here by hand: the label, then what would be right. */
const WRONG: readonly Wrong[] = [
  charge('a negative mass', { before: lb('-4') }, [
    'before/value',
    'Gross before: cannot be below zero; enter what the scale showed.',
  ]),
  charge('an absurd mass', { before: lb('900000') }, [
    'before/value',
    'Gross before: more than 5,000 kg; check number and unit.',
  ]),
  charge('a mass that is missing', { before: undefined }, [
    'before',
    'Gross before: enter a number with its unit, as 18.5 lb.',
  ]),
  charge('a mass without a unit', { after: { value: '12' } }, [
    'after/unit',
    'Gross after: choose lb, oz, kg, g or lb-oz.',
  ]),
  charge('a mass that is text', { before: lb('full') }, [
    'before/value',
    'Gross before: give a plain number, as 18.5.',
  ]),
  charge('a fraction of a gram', { before: g('52408.5') }, [
    'before/value',
    'Gross before: a scale in grams shows whole grams.',
  ]),
  charge('sixteen ounces', { before: { value: '115 lb 16 oz', unit: 'lb-oz' } }, [
    'before/value',
    'Gross before: ounces go up to 15; carry the rest to pounds.',
  ]),
  charge('pounds and ounces as one number', { before: { value: '115.5', unit: 'lb-oz' } }, [
    'before/value',
    'Gross before: give pounds and ounces, as 3 lb 4 oz.',
  ]),
  charge('more than the cylinder could hold', { before: { value: '300', unit: 'kg' } }, [
    'before',
    'Gross before: more than this cylinder can hold; check number and unit.',
  ]),
  charge('a cylinder that gets heavier as it empties', { before: g('52000'), after: g('53000') }, [
    'after',
    'Gross after: an emptied cylinder gets lighter; check both weights.',
  ]),
  field('record-readings', 'a pressure below a perfect vacuum', {
    put: { standing: { value: '-101', unit: 'kpa-gauge' } },
    at: 'standing',
    says: 'Standing pressure: below a perfect vacuum at this site; check number and unit.',
  }),
  field('record-readings', 'a pressure no circuit stands', {
    put: { discharge: { value: '5000', unit: 'psig' } },
    at: 'discharge',
    says: 'Discharge pressure: higher than any circuit stands; check number and unit.',
  }),
  field('record-readings', 'a temperature below absolute zero', {
    put: { ambient: { value: '-460', unit: 'F' } },
    at: 'ambient',
    says: 'Ambient: below absolute zero; check number and unit.',
  }),
  field('record-readings', 'a temperature of a furnace', {
    put: { liquidLine: { value: '1200', unit: 'F' } },
    at: 'liquidLine',
    says: 'Liquid line: hotter than any refrigerant circuit; check number and unit.',
  }),
  field('record-verification', 'a test temperature below absolute zero', {
    put: { startTemperature: { value: '-300', unit: 'C' } },
    at: 'startTemperature',
    says: 'Temperature at the start: below absolute zero; check number and unit.',
  }),
  field('record-verification', 'a test pressure beyond physics', {
    put: { end: { value: '-300', unit: 'kpa-gauge' } },
    at: 'end',
    says: 'Pressure at the end: below a perfect vacuum at this site; check number and unit.',
  }),
  field('record-vacuum', 'a vacuum better than perfect', {
    put: {
      readings: [
        { minutes: 0, vacuum: { value: '-5', unit: 'micron' } },
        { minutes: 10, vacuum: { value: '480', unit: 'micron' } },
      ],
    },
    at: 'readings/0/vacuum',
    says: 'Vacuum: below a perfect vacuum at this site; check number and unit.',
  }),
  field('record-owner-told', '100 kB of text', {
    put: { who: 'x'.repeat(100_000) },
    at: 'who',
    says: 'Who was told: give text of 1 to 120 characters.',
  }),
  field('record-owner-told', 'half a surrogate pair', {
    put: { who: 'Ines \ud83d' },
    at: 'who',
    says: 'Who was told: has characters that cannot be stored; type it again.',
  }),
  field('record-owner-told', 'a NUL', {
    put: { who: 'Ines\u0000Varga' },
    at: 'who',
    says: 'Who was told: has characters that cannot be stored; type it again.',
  }),
  field('record-owner-told', 'an id that is none', {
    put: { circuitId: '417' },
    at: 'circuitId',
    says: 'Circuit: is not known here; choose one.',
  }),
];

describe('a field that cannot be right is named with what would be, and nothing else is lost', () => {
  for (const { what, kind, put, pointer, says } of WRONG) {
    test(`${what}, from a desk and in a device’s batch`, async () => {
      const body = { ...((await bodies[kind]()) as Body), ...put };
      const before = await checksums(admin);
      const refusal = await refusalOf(firm.send('technician', kind, body as never));
      expect(faultsIn(refusal)).toEqual({ [pointer]: says });
      expectPlainWords(refusal, what);
      expect(await checksums(admin)).toEqual(before);
      const tried = envelope(kind, body);
      const { item, answers } = await betweenGoodOnes(tried);
      expect(answers.find(({ id }) => id === tried.id)?.problem?.errors).toEqual([{ pointer, detail: says }]);
      expect(item?.envelope).toBeTruthy(); // kept whole, for a person
    });
  }

  test('an id that does not exist says no more than that', async () => {
    const before = await checksums(admin);
    for (const put of [{ circuitId: newId() }, { visitId: newId() }, { cylinderId: newId() }, { scaleId: newId() }]) {
      const refusal = await refusalOf(
        firm.send('technician', 'record-charge', { ...(await bodies['record-charge']()), ...put }),
      );
      expect([refusal.code, refusal.message, refusal.errors]).toEqual([
        'not-found',
        'There is nothing here under that id.',
        [],
      ]);
    }
    expect(await checksums(admin)).toEqual(before);
  });

  test('a batch kept for a person is what came, also where a database cannot hold the characters', async () => {
    const body = { circuitId: scene.of.circuit, who: 'Ines\u0000\ud83d' };
    const { item } = await betweenGoodOnes(envelope('record-owner-told', body));
    expect(item?.envelope).toMatchObject({ body });
  });
});

describe('times', () => {
  const place = async (put: Body) => ({ ...(await bodies['place-visit']()), ...put }) as never;
  const refusedAt = async (kind: CommandName, body: unknown, more: { at?: string } = {}) => {
    const before = await checksums(admin);
    const refusal = await refusalOf(
      firm.send(kind === 'place-visit' ? 'dispatcher' : 'owner', kind, body as never, more),
    );
    expectPlainWords(refusal, kind);
    expect(await checksums(admin)).toEqual(before);
    return faultsIn(refusal);
  };

  test('a visit that ends before it starts', async () => {
    expect(await refusedAt('finish-visit', { visitId: scene.onSite }, { at: today('16:59') })).toEqual({
      '#/body/visitId': 'End: before the arrival; check the clock of the device.',
    });
  });

  test('a local time that does not exist: 02:30 on 14 March 2027, when clocks go forward in Denver', async () => {
    expect(await refusedAt('place-visit', await place({ day: '2027-03-14', time: '02:30' }))).toEqual({
      '#/body/time': 'Time: 02:30 does not exist that day, clocks go forward; choose another.',
    });
  });

  test('a local time that exists twice: 01:30 on 1 November 2026; the answer asks which, and takes either', async () => {
    const twice = {
      day: '2026-11-01',
      time: '01:30',
      override: { 'outside-working-day': 'Night work' },
    };
    expect(await refusedAt('place-visit', await place(twice))).toEqual({
      '#/body/which': 'Time: 01:30 comes twice that day, clocks go back; say earlier or later.',
    });
    const starts: (string | null)[] = [];
    for (const which of ['earlier', 'later']) {
      await firm.send('dispatcher', 'place-visit', await place({ ...twice, which }));
      starts.push((await world.office.visit(firm.actors.owner, scene.proposed)).visit.startsAt);
    }
    expect(starts).toEqual(['2026-11-01T07:30:00.000Z', '2026-11-01T08:30:00.000Z']);
  });

  test('a time zone that does not exist, or is none but an offset', async () => {
    for (const timeZone of ['America/Dunmoor', '+02:00', 'denver time']) {
      const call = theCall({ ...scene.of, customer: newId(), site: newId(), unit: newId(), circuit: newId() }, DAYS);
      const body = { ...call, site: { id: newId(), new: { ...call.site.new, timeZone } } };
      expect(await refusedAt('take-call', body)).toEqual({
        '#/body/site/new/timeZone': 'Time zone: this one does not exist; choose one such as America/Denver.',
      });
    }
  });
  const DAYS = { first: '2025-12-01', second: '2026-02-14' };

  test('what is said to have happened in the future, or before there was such work', async () => {
    const safety = await bodies['record-safety']();
    expect(await refusedAt('record-safety', safety, { at: today('17:06') })).toEqual({
      '#/happenedAt': 'Time: lies in the future; check the clock of the device.',
    });
    const early = 'Time: lies before 1900; check the year.';
    expect(await refusedAt('record-safety', safety, { at: '0000-04-30T10:00:00Z' })).toEqual({ '#/happenedAt': early });
    expect(await firm.send('technician', 'record-safety', safety, { at: today('17:04') })).toMatchObject({
      outcome: 'applied',
    });
  });

  test('a past addition on a day yet to come, or of the year 0', async () => {
    const call = (onDay: string) => ({
      customer: { id: scene.of.customer },
      site: { id: scene.of.site },
      unit: { id: scene.of.unit },
      circuit: { id: scene.of.circuit },
      history: [{ id: newId(), onDay, mass: null, by: 'us' }],
      visit: { id: newId() },
    });
    expect(await refusedAt('take-call', call('2026-05-01'))).toEqual({
      '#/body/history/0/onDay': 'Past addition: the day lies in the future; give a past day.',
    });
    expect(await refusedAt('take-call', call('0000-05-01'))).toEqual({
      '#/body/history/0/onDay': 'Day of the past addition: lies before 1900; check the year.',
    });
  });

  test('a device three hours ahead: its facts get the right time, and what it says lies in the future is no fault', async () => {
    const device = newId();
    const sentAt = today('20:00');
    const tried = envelope('record-safety', await bodies['record-safety'](), { device, happenedAt: today('19:50') });
    const { answers } = await world.office.push(firm.actors.technician, { sentAt, device, commands: [tried] });
    expect(answers[0]).toMatchObject({ outcome: 'applied', clockSkewSeconds: -10_800 });
    const { facts } = await world.office.visit(firm.actors.owner, scene.onSite);
    expect(facts.find(({ id }) => id === tried.id)?.happenedAt).toBe(today('16:50'));
  });
});

describe('sent again, at once, out of order, changed', () => {
  test('the same id with other content is refused, from a desk and from a device, and the first stands', async () => {
    const id = newId();
    const body = await bodies['record-service-loss']();
    await firm.send('technician', 'record-service-loss', body, { id });
    const before = await checksums(admin);
    const other = { ...body, mass: { value: '6', unit: 'g' as const } };
    const refusal = await refusalOf(firm.send('technician', 'record-service-loss', other, { id }));
    expect(refusal.code).toBe('command-changed');
    expectPlainWords(refusal, 'changed');
    expect(await checksums(admin)).toEqual(before);
    const { answers } = await betweenGoodOnes(envelope('record-service-loss', other, { id }));
    expect(answers.find((answer) => answer.id === id)?.problem?.type).toBe('/problems/command-changed');
    expect((await firm.send('technician', 'record-service-loss', body, { id })).outcome).toBe('already-applied');
  });

  test('a command before the one it depends on waits, moves nothing, and follows when that arrives', async () => {
    const [first, second] = [newId(), newId()];
    const loss = await bodies['record-service-loss']();
    const facts = async () => (await world.office.visit(firm.actors.owner, scene.onSite)).facts.map(({ id }) => id);
    const waits = await firm.send('technician', 'record-service-loss', loss, { id: second, dependsOn: [first] });
    expect(waits.outcome).toBe('waiting');
    expect(await facts()).not.toContain(second);
    await firm.send('technician', 'record-safety', await bodies['record-safety'](), { id: first });
    expect(await facts()).toEqual(expect.arrayContaining([first, second]));
    expect(
      (await firm.send('technician', 'record-service-loss', loss, { id: second, dependsOn: [first] })).outcome,
    ).toBe('already-applied');
  });
});

describe('a device that gives one number to two commands', () => {
  test('the second is kept for a person, whether it is right or wrong; the first stands', async () => {
    const device = newId();
    const push = async (command: unknown) =>
      (await world.office.push(firm.actors.technician, { sentAt: world.clock.now, device, commands: [command] }))
        .answers[0];
    const safety = await bodies['record-safety']();
    const first = envelope('record-safety', safety, { device });
    const { deviceSeq: number } = first;
    const second = envelope('record-safety', safety, { device, deviceSeq: number });
    const wrong = envelope(
      'record-safety',
      { visitId: newId(), checks: [], notDone: [] },
      { device, deviceSeq: number },
    );
    expect((await push(first))?.outcome).toBe('applied');
    for (const tried of [second, wrong]) {
      const answer = await push(tried);
      expect([answer?.outcome, answer?.id]).toEqual(['needs-attention', tried.id]);
      expect(await push(tried)).toEqual(answer);
      const { items } = await world.office.attention(firm.actors.owner);
      expect(items.filter(({ commandId }) => commandId === tried.id)).toMatchObject([{ envelope: tried }]);
    }
    expect((await push(first))?.outcome).toBe('already-applied');
  });
});

describe('text is text', () => {
  test('HTML in a name stays the text that was typed, at every place that shows it', async () => {
    const name = `<script>alert("Larkspur")</script> & Söhne 'x' \u202e 冷`;
    const of = { ...scene.of, customer: newId(), site: newId(), unit: newId(), circuit: newId(), visit: newId() };
    const call = theCall({ ...of, past1: newId(), past2: newId() }, { first: '2025-12-01', second: '2026-02-14' });
    await firm.send('dispatcher', 'take-call', { ...call, customer: { id: of.customer, new: { name } } });
    expect((await world.office.visit(firm.actors.owner, of.visit)).visit.customerName).toBe(name);
    expect(JSON.stringify(await world.office.places(firm.actors.owner, { query: '<script>' }))).toContain(
      JSON.stringify(name).slice(1, -1),
    );
  });
});
