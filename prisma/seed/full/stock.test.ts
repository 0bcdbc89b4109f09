import { cylinderRoom } from '@ullage/thermo';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { Chance } from './chance.ts';
import { Moments } from './moments.ts';
import { MOST_RECOVERED, registration, Stock } from './stock.ts';
import type { Cylinder } from './stock.ts';

const calendar = makeCalendar(Temporal as never);
const moments = new Moments({ calendar, today: '2026-11-25', zone: 'America/Denver' });
const stock = () => new Stock({ moments, chance: new Chance('stock') });
const wanted = { gas: 'R-404A', from: '2026-01-05T15:00:00.000Z', until: '2026-01-05T20:00:00.000Z', place: 'van' };
const KG_PER_LB = 0.45359237;
const KPA_PER_PSI = 6.894757;

/** Room by 49 CFR 173.304a and AHRI Guideline K, as the laboratory computes it from the stamps. */
function roomOf(cylinder: Cylinder, gas: string, gross: number): number {
  const { waterCapacity, servicePressurePsig, specification, kind } = registration(cylinder);
  const answer = cylinderRoom({
    refrigerant: gas,
    kind,
    specification,
    waterCapacityKg: Number(waterCapacity.value) * KG_PER_LB,
    tareKg: (cylinder.tare / 100) * KG_PER_LB,
    grossKg: (gross / 100) * KG_PER_LB,
    ...(servicePressurePsig === undefined ? {} : { servicePressureKpaGauge: servicePressurePsig * KPA_PER_PSI }),
  });
  if (!('roomKg' in answer) || answer.roomKg === null) throw new Error(`no room is known for ${gas}`);
  return answer.roomKg;
}

test('no cylinder is bought over its legal fill, and none is recovered into beyond it', () => {
  const { all } = stock();
  const gases = new Set(all.flatMap(({ gas }) => gas ?? []));
  for (const cylinder of all) {
    if (cylinder.gas !== undefined) expect(roomOf(cylinder, cylinder.gas, cylinder.gross)).toBeGreaterThanOrEqual(0);
    else
      for (const gas of gases) expect(roomOf(cylinder, gas, cylinder.tare + MOST_RECOVERED)).toBeGreaterThanOrEqual(0);
  }
  expect(all).toHaveLength(56);
});

test('more than one cylinder holds is drawn from several, and no cylinder below its tare', () => {
  const { weighed } = stock().draw({ ...wanted, weight: 15_000 });
  expect(weighed.length).toBe(2);
  expect(weighed.reduce((sum, { before, after }) => sum + before - after, 0)).toBe(15_000);
  for (const { cylinder, after } of weighed) expect(after).toBeGreaterThan(cylinder.tare);
});
test('a cylinder that is elsewhere at that time is not taken', () => {
  const all = stock();
  const [first] = all.draw({ ...wanted, weight: 500 }).weighed;
  const [second] = all.draw({ ...wanted, weight: 500 }).weighed;
  expect(second?.cylinder).not.toBe(first?.cylinder);
});
test('recovered gas goes to gas of its own kind while there is room, and else into an empty one', () => {
  const all = stock();
  const one = all.recover({ ...wanted, weight: 2_000, until: '1' });
  const same = all.recover({ ...wanted, weight: 900, until: '1' });
  const other = all.recover({ ...wanted, gas: 'R-448A', weight: 900, until: '1' });
  const full = all.recover({ ...wanted, weight: 900, until: '1' });
  expect(same?.cylinder).toBe(one?.cylinder);
  expect(other?.cylinder).not.toBe(one?.cylinder);
  expect(full?.cylinder).not.toBe(one?.cylinder);
});
test('gas is promised only as far as it will come in', () => {
  const all = stock();
  expect(all.promise('R-513A', 6_000)).toBe(true);
  expect(all.promise('R-513A', 6_000)).toBe(false);
});
