import { makeCalendar, uuidv7 } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { expect, test, vi } from 'vitest';
import { scenario } from './scenario.ts';
import type { Command, Step } from './steps.ts';

// Three years are half a second of calendar, and more on a machine that has other work.
vi.setConfig({ testTimeout: 60_000 });
const calendar = makeCalendar(Temporal as never);
const idOf = (nth: number): string => uuidv7(nth, new Uint8Array(10));
const known = {
  people: { technician: idOf(1), 'Odell Marsh': idOf(2), 'Juno Pell': idOf(3) },
  store: idOf(4),
  firstVan: idOf(5),
  firstDetector: idOf(6),
};
const ask = (today: string, seed = 'heron vale') => scenario({ calendar, zone: 'America/Denver', today, known, seed });
const told = ask('2026-11-25');
const isCommand = (step: Step): step is Command => step.kind !== 'return' && step.kind !== 'billing';
const commands = (tasks = told.tasks) => tasks.flatMap(({ steps }) => steps.filter(isCommand));
type Body<K extends Command['kind']> = Extract<Command, { kind: K }>['body'];
const bodies = <K extends Command['kind']>(kind: K) =>
  commands().flatMap((one) => (one.kind === kind ? [one.body as Body<K>] : []));

test('the same day and seed give the same story, to the last id', () => {
  expect(ask('2026-11-25')).toEqual(told);
  expect(ask('2026-11-25', 'another')).not.toEqual(told);
});

test.each(['2026-01-02', '2026-07-04', '2027-03-14', '2028-02-29'])('there is a story for %s too', (today) => {
  const { house, tasks, closing } = ask(today);
  expect(tasks.length).toBeGreaterThan(600);
  expect([house, closing].every(({ steps }) => steps.length > 0)).toBe(true);
});

test('nothing happens twice under one id, and nothing happens after today began', () => {
  const all = [told.house, ...told.tasks, told.closing].flatMap(({ steps }) => steps.filter(isCommand));
  expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
  expect(all.every(({ at }) => at < calendar.startOf('2026-11-25', 'America/Denver'))).toBe(true);
});

test('within a piece time runs one way', () => {
  for (const { steps } of told.tasks) {
    const times = steps.map(({ at }) => at);
    expect(times).toEqual(times.toSorted());
  }
});

test('a cylinder weighs at each charge what it weighed after the one before', () => {
  const weights = new Map<string, string>();
  for (const { cylinderId, before, after } of bodies('record-charge')) {
    const last = weights.get(cylinderId);
    if (last !== undefined && !bodies('record-recovery').some((one) => one.cylinderId === cylinderId))
      expect(before.value).toBe(last);
    weights.set(cylinderId, after.value);
  }
  expect(weights.size).toBeGreaterThan(15);
});

test('nobody is in two places at once', () => {
  const starts = bodies('place-visit').map(({ personId, day, time }) => `${personId} ${day} ${time}`);
  expect(new Set(starts).size).toBe(starts.length);
});

test('every address is one that reaches nobody', () => {
  for (const step of told.house.steps)
    if (step.kind === 'register-person') expect(step.body.email).toMatch(/\.example$/);
});
