import { beforeAll, expect, test } from 'vitest';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { ids, theCall } from '../support/story.ts';

/** Rosa Quill is at the rack from 16:00 to 17:00; another call comes in. Rosa and Ada Moss are both free of law. */
let world: TestOffice;
let firm: Contractor;
const of = ids();
const other = newId();
const ada = newId();
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('07:30'));
  firm = await world.contractor();
  const call = theCall(of, { first: '2025-12-01', second: '2026-02-14' });
  await firm.send('dispatcher', 'take-call', call);
  const known = { customer: { id: of.customer }, site: { id: of.site }, unit: { id: of.unit } };
  await firm.send('dispatcher', 'take-call', {
    ...known,
    circuit: { id: of.circuit },
    history: [],
    visit: { id: other },
  });
  for (const [personId, name] of [
    [of.technician, 'Rosa Quill'],
    [ada, 'Ada Moss'],
  ] as const) {
    const certificates = [{ id: newId(), scheme: 'us-608' as const, type: 'II' as const }];
    await firm.send('manager', 'register-person', { personId, name, certificates });
  }
  const first = { visitId: of.visit, version: 1, personId: of.technician, day: '2026-05-04' };
  await firm.send('dispatcher', 'place-visit', { ...first, time: '16:00', minutes: 60 });
});

const headOf = async (visitId: string) => (await world.office.visit(firm.actors.owner, visitId)).visit;
async function place(more: Partial<CommandBody<'place-visit'>>) {
  const { version } = await headOf(other);
  return firm.send('dispatcher', 'place-visit', {
    visitId: other,
    version,
    personId: of.technician,
    day: '2026-05-04',
    time: '16:30',
    minutes: 60,
    ...more,
  });
}
const refusal = (more: Partial<CommandBody<'place-visit'>>) =>
  place(more).then(
    () => {
      throw new Error('was placed');
    },
    (error: unknown) => error as { code: string; message: string; rules: { code: string; text: string }[] },
  );

test('two rules of ours that stand against one moment are said at once, the law before them', async () => {
  const { code, rules } = await refusal({});
  expect(code).toBe('rule-forbids');
  expect(rules).toEqual([
    {
      code: 'double-booked',
      whose: 'ours',
      overridable: true,
      text: 'Already at 14 Quarry Bend, Dunmoor, 16:00 to 17:00.',
      instead: expect.stringContaining('give a reason'),
    },
    {
      code: 'outside-working-day',
      whose: 'ours',
      overridable: true,
      text: '16:30 to 17:30 is outside the working day, 07:00 to 17:00.',
      instead: expect.stringContaining('give a reason'),
    },
  ]);
  const late = await refusal({ personId: newId() });
  expect(late.code).toBe('not-found');
});

test('of two people each rule is said once, naming whom it is against', async () => {
  const { rules } = await refusal({ withPersonIds: [ada] });
  expect(rules.map(({ code, text }) => [code, text])).toEqual([
    ['double-booked', 'Rosa Quill: Already at 14 Quarry Bend, Dunmoor, 16:00 to 17:00.'],
    [
      'outside-working-day',
      ['Rosa Quill', 'Ada Moss']
        .map((name) => `${name}: 16:30 to 17:30 is outside the working day, 07:00 to 17:00.`)
        .join(' '),
    ],
  ]);
});

test('a reason for one rule is none for the other: what is left stands', async () => {
  const { rules } = await refusal({ override: { 'double-booked': 'It is the same roof' } });
  expect(rules.map(({ code }) => code)).toEqual(['outside-working-day']);
  expect(await headOf(other)).toMatchObject({ state: 'proposed', overrides: [] });
});

test('with a reason for each it is placed; each reason is kept with its rule and who gave it', async () => {
  await place({ override: { 'double-booked': 'It is the same roof', 'outside-working-day': 'They close at 18:00' } });
  const kept = [
    { rule: 'double-booked', reason: 'It is the same roof' },
    { rule: 'outside-working-day', reason: 'They close at 18:00' },
  ];
  expect(await headOf(other)).toMatchObject({ state: 'placed', overrides: kept });
  const rows = await world.sql<{ given_by: string }>('SELECT given_by FROM visit_override');
  expect(rows.map((row) => row.given_by)).toEqual(Array(2).fill(firm.actors.dispatcher.userId));
});

test('placed anew, only the rules that the new moment bends keep a reason; off the plan, none does', async () => {
  await place({ time: '09:00', override: { 'double-booked': 'Not needed', 'outside-working-day': 'Not needed' } });
  expect((await headOf(other)).overrides).toEqual([]);
  await place({ time: '17:30', override: { 'double-booked': 'Not needed', 'outside-working-day': 'Evening work' } });
  expect((await headOf(other)).overrides).toEqual([{ rule: 'outside-working-day', reason: 'Evening work' }]);
  const { version } = await headOf(other);
  await firm.send('dispatcher', 'unplace-visit', { visitId: other, version });
  expect((await headOf(other)).overrides).toEqual([]);
});
