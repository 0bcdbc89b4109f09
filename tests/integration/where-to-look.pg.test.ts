/** What "where to look next" is worked out from, as the visit's page gives it. */
import { expect, test } from 'vitest';
import { whereToLook } from '@ullage/trail';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

const DAYS = { first: '2025-12-01', second: '2026-02-14' };
const today = onDay('2026-04-30');

async function onSite(world: TestOffice, name?: string): Promise<{ firm: Contractor; of: StoryIds }> {
  world.clock.now = today('07:30');
  const firm = await world.contractor(name);
  const of = ids();
  await firm.send('dispatcher', 'take-call', theCall(of, DAYS));
  const certificates = [{ id: newId(), scheme: 'us-608', type: 'II', registeredOn: '2025-06-01' } as const];
  await firm.send('manager', 'register-person', { personId: of.technician, name: 'Rosa Quill', certificates });
  const placed = { version: 1, personId: of.technician, day: '2026-04-30', time: '09:00', minutes: 420 };
  await firm.send('dispatcher', 'place-visit', { visitId: of.visit, ...placed });
  // Arrival, safety, detector registered and checked, first readings.
  await run(firm, visitSteps(of, today).slice(0, 5), world.clock);
  world.clock.now = today('13:00');
  return { firm, of };
}
const searchOf = async (world: TestOffice, { firm, of }: Awaited<ReturnType<typeof onSite>>) => {
  const [glance] = (await world.office.visit(firm.actors.technician, of.visit)).glances;
  if (!glance) throw new Error('no circuit');
  return glance.search;
};
const VALVES = ['service-valve-core', 'service-valve-cap', 'service-valve-stem'];

test('loss, looks, checks, readings and findings of this contractor alone', async () => {
  const world = await openTestOffice(today('07:30'));
  const job = await onSite(world);
  const { firm, of } = job;
  const on = { visitId: of.visit, circuitId: of.circuit };
  const before = await searchOf(world, job);
  expect(before).toMatchObject({ equipment: 'rack', findings: {}, looks: [], leaks: [], unitState: 'off' });
  expect(before.detectors).toEqual([
    {
      id: of.detector,
      tag: 'D-14',
      atHand: true,
      senseGramsPerYear: 5,
      checks: [expect.objectContaining({ result: 'pass' })],
    },
  ]);
  // 127 psig at 63 °F; the dew pressure of R-448A there is near 125 psig: liquid is inside.
  expect(before.conditions.pressureKpaGauge).toBeCloseTo(127 * 6.894757, 0);
  expect(before.conditions.saturationKpaGauge).toBeGreaterThan(700);

  const clear = {
    places: VALVES,
    method: 'electronic',
    instrumentId: of.detector,
    unitState: 'off',
    result: 'clear',
  } as const;
  await firm.send('technician', 'record-look', { ...on, ...clear }, { at: today('09:20') });
  const looked = await searchOf(world, job);
  expect(looked.looks).toEqual([
    expect.objectContaining({ earlierVisit: false, places: VALVES, instrumentId: of.detector, result: 'clear' }),
  ]);
  const at = (facts: typeof looked) =>
    whereToLook(facts).places.find(({ place }) => place === VALVES[0])?.chance ?? NaN;
  expect(at(looked)).toBeLessThan(at(before) / 5);

  // The detector fails at noon: its look since the check at 09:03 counts for nothing.
  const check = { visitId: of.visit, instrumentId: of.detector, against: 'reference', result: 'fail' } as const;
  await firm.send('technician', 'record-tool-check', check, { at: today('12:00') });
  const doubted = await searchOf(world, job);
  expect(at(doubted)).toBeCloseTo(at(before), 12);
  expect(whereToLook(doubted).notNow[0]?.text).toBe('D-14 failed its check: take another detector, or bubbles.');

  const leak = {
    leakPointId: of.leak,
    place: 'flare-nut',
    where: 'Case 7',
    lowGramsPerYear: 1200,
    highGramsPerYear: 6000,
  };
  await firm.send('technician', 'record-leak-point', { ...on, ...leak }, { at: today('12:10') });
  const found = await searchOf(world, job);
  expect(found).toMatchObject({
    leaks: [{ place: 'flare-nut', lowGramsPerYear: 1200, highGramsPerYear: 6000 }],
    findings: { 'flare-nut': 1 },
    signs: [],
  });
  expect(whereToLook(found).places.map(({ place }) => place)).not.toContain('flare-nut');

  // Another contractor's search knows nothing of it, and this visit is not there for it.
  const other = await onSite(world, 'Sedge Hollow Cooling');
  expect((await searchOf(world, other)).findings).toEqual({});
  await expect(world.office.visit(other.firm.actors.technician, of.visit)).rejects.toMatchObject({ code: 'not-found' });
});
