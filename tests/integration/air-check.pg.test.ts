import { beforeAll, describe, expect, test } from 'vitest';
import type { CommandBody } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { bottle, g, gross, TARE } from '../support/mixing.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';

let world: TestOffice;
let firm: Contractor;
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-05-04')('12:00'));
  firm = await world.contractor();
});

/** 25 lb of R-134a (11,340 g) in a cylinder of 47.6 lb of water. */
const full = (label: string) =>
  bottle(firm, label, { gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(11_340) } });
type Body = CommandBody<'record-air-check'>;
/** 90.0 psig at 75 °F, read at sea level. */
const reading = (cylinderId: string, but: Partial<Body> = {}): Body => ({
  cylinderId,
  refrigerant: 'R-134a',
  restedHours: 24,
  liquidPresent: true,
  temperature: { value: '75', unit: 'F' },
  pressure: { value: '90.0', unit: 'psig' },
  elevationM: 0,
  ...but,
});
const FINE = { temperatureSigmaK: 0.1, pressureSigmaKpa: 1 };
const COARSE = { temperatureSigmaK: 1, pressureSigmaKpa: 7 };

async function check(but: Partial<Body>, label = `C-${newId()}`) {
  const id = await full(label);
  const answer = await firm.send('warehouse', 'record-air-check', reading(id, but));
  const view = await world.office.cylinder(firm.actors.warehouse, id);
  return { id, codes: answer.asks.map(({ code }) => code), asks: answer.asks, view, kept: view.airChecks[0]! };
}

// Check values: R-134a at 75 °F stands at 78.7 psig; 90.0 psig is 11.3 psi (78 kPa) over it, 10.8 % of air by volume, and
// 11.6 g of air in the 12.6 L above 25 lb of liquid (equation of state of R-134a; the same row is in tests/reference).
describe('90.0 psig of R-134a at 75 °F at sea level', () => {
  test('is over the shop limit of 69 kPa by fine instruments, with all that it rests on', async () => {
    const { codes, kept, view } = await check({ ...FINE, gross: gross(11_340) });
    expect(codes).toEqual(['air-over-shop-limit', 'purity-not-certifiable']);
    expect(kept).toMatchObject({ verdict: 'over-shop-limit', limitKpa: 69, refrigerant: 'R-134a' });
    expect(kept.excessKpa).toBeCloseTo(78, 0);
    expect(kept.airPercent).toBeCloseTo(10.8, 1);
    expect(kept.airGrams).toBeCloseTo(11.6, 1);
    expect(kept.purityText).toMatch(/not certifiable by a gauge/);
    expect(kept.reasons.length).toBeGreaterThan(3);
    // 1.5 % of the vapour: 643.6 kPa * 0.015 / 0.985 above saturation.
    expect(kept.purityKpa).toBeCloseTo(9.8, 1);
    expect(kept.airPercentSigma).toBeCloseTo(0.3, 1);
    expect(kept.readings).toMatchObject({
      ...{ restedHours: 24, liquidPresent: true, temperatureSigmaK: 0.1, pressureSigmaKpa: 1 },
      ...{ temperature: { value: '75', unit: 'F' }, pressure: { value: '90.0', unit: 'psig' } },
      ...{ barometerKpa: 101.325, barometerFrom: 'elevation' },
    });
    expect(view.cylinder).toMatchObject({ doubtText: 'air over limit', fit: ['return'] });
    expect(view.doubts[0]?.lowGrams).toBeCloseTo(11.6, 1);
  });

  test('cannot be told by a thermometer to 1 K and a gauge to 7 kPa: nothing changes', async () => {
    const { codes, view } = await check(COARSE);
    expect(codes).toEqual(['air-cannot-tell', 'purity-not-certifiable']);
    expect(view.doubts).toEqual([]);
  });

  test('cannot be told by instruments that nobody knows: common practice stands in for them', async () => {
    expect((await check({})).codes[0]).toBe('air-cannot-tell');
  });

  test('by instruments with their own repeatability', async () => {
    const [gaugeId, thermometerId, coarse] = [newId(), newId(), newId()];
    const register = (
      instrumentId: string,
      kind: 'gauge' | 'thermometer',
      repeatability: { value: number; unit: 'psi' | 'F' },
    ) => firm.send('warehouse', 'register-instrument', { instrumentId, kind, tag: `I-${instrumentId}`, repeatability });
    await register(gaugeId, 'gauge', { value: 0.15, unit: 'psi' }); // 1.0 kPa
    await register(thermometerId, 'thermometer', { value: 0.2, unit: 'F' }); // 0.11 K
    await register(coarse, 'gauge', { value: 2, unit: 'psi' }); // 13.8 kPa
    const known = await check({ gaugeId, thermometerId });
    expect(known.codes[0]).toBe('air-over-shop-limit');
    expect(known.view.instruments.find(({ id }) => id === gaugeId)).toMatchObject({
      kind: 'gauge',
      repeatability: { value: 0.15, unit: 'psi' },
    });
    expect((await check({ gaugeId: coarse, thermometerId })).codes[0]).toBe('air-cannot-tell');
    // What was said of this reading goes before what is known of the instrument.
    expect((await check({ gaugeId: coarse, thermometerId, pressureSigmaKpa: 1 })).codes[0]).toBe('air-over-shop-limit');
  });

  test('after too short a rest shows nothing', async () => {
    expect((await check({ ...FINE, restedHours: 3 })).codes[0]).toBe('air-cannot-tell');
  });

  test('without liquid there is nothing to compare with', async () => {
    const { codes, view } = await check({ ...FINE, liquidPresent: false });
    expect(codes[0]).toBe('air-not-defined');
    expect(view.doubts).toEqual([]);
  });
});

describe('the barometer is that of the place where the cylinder is read', () => {
  // At 1,600 m it is 17.8 kPa lower: the same 90.0 psig is then 60 kPa over saturation, within 69 kPa.
  const located = async () => {
    const id = newId();
    await world.sql(
      `INSERT INTO location (tenant_id, id, kind, name, elevation_m) VALUES ($1, $2, 'warehouse', 'Yard', 1600)`,
      [firm.tenantId, id],
    );
    return id;
  };
  test.each([
    ['by elevation', { elevationM: 1600 }, 60.4],
    ['as it was measured, whatever else was said', { barometer: { value: '83.5', unit: 'kpa' as const } }, 60.4],
    [
      'for an absolute gauge none is needed',
      { elevationM: undefined, pressure: { value: '104.7', unit: 'psia' as const } },
      78.3,
    ],
  ])('%s', async (_name, but, excess) => {
    const { kept } = await check({ ...FINE, ...but });
    expect(Math.abs(kept.excessKpa - excess)).toBeLessThan(0.3);
  });

  test('by the location that was named, else by the one where the cylinder stands', async () => {
    const locationId = await located();
    const named = await check({ ...FINE, elevationM: undefined, locationId });
    expect(named.kept).toMatchObject({ verdict: 'within-shop-limit' });
    const id = await full('stands');
    await world.sql(`UPDATE cylinder SET location_id = $2 WHERE tenant_id = $1 AND id = $3`, [
      firm.tenantId,
      locationId,
      id,
    ]);
    await firm.send('warehouse', 'record-air-check', reading(id, { ...FINE, elevationM: undefined }));
    const view = await world.office.cylinder(firm.actors.warehouse, id);
    expect(view.airChecks[0]?.excessKpa).toBeCloseTo(named.kept.excessKpa, 6);
  });

  test('where nothing says what it was, the reading is asked for', async () => {
    const id = await full('nowhere');
    const refused = await refusalOf(firm.send('warehouse', 'record-air-check', reading(id, { elevationM: undefined })));
    expect(faultsIn(refused)['#/body/barometer']).toMatch(/^Barometer: give its reading/);
  });
});

describe('what no cylinder could show is refused at its field', () => {
  test.each([
    ['temperature', { temperature: { value: '500', unit: 'F' as const } }, '#/body/temperature'],
    ['pressure', { pressure: { value: '-20', unit: 'psig' as const } }, '#/body/pressure'],
    ['barometer', { barometer: { value: '14.7', unit: 'psig' as const } }, '#/body/barometer/unit'],
    ['barometer of another planet', { barometer: { value: '5', unit: 'kpa' as const } }, '#/body/barometer/value'],
    ['gross weight', { gross: g(90_000) }, '#/body/gross'],
  ])('%s', async (_name, but, pointer) => {
    const id = await full(`R-${newId()}`);
    const refused = await refusalOf(firm.send('warehouse', 'record-air-check', reading(id, but)));
    expect(Object.keys(faultsIn(refused))).toEqual([pointer]);
  });
});

test('the shop limit is the contractor’s own, and a verdict stands as it was given', async () => {
  const other = await world.contractor();
  const id = newId();
  await other.send('warehouse', 'register-cylinder', {
    cylinderId: id,
    kind: 'recovery',
    specification: 'DOT-4BA400',
    serial: 'S-1',
    waterCapacity: { value: '47.6', unit: 'lb' },
    tare: g(TARE),
    gas: { refrigerant: 'R-134a', state: 'recovered', gross: gross(11_340) },
  });
  const limit = (kpa: number) =>
    world.sql(`UPDATE tenant SET shop_excess_kpa = $2 WHERE id = $1`, [other.tenantId, kpa]);
  await limit(100);
  await other.send('warehouse', 'record-air-check', reading(id, FINE));
  await limit(50);
  const { airChecks } = await world.office.cylinder(other.actors.warehouse, id);
  expect(airChecks).toMatchObject([{ verdict: 'within-shop-limit', limitKpa: 100 }]);
});

test('a weight taken at the check is a weighing like any other', async () => {
  const { view } = await check({ ...FINE, gross: gross(11_000) });
  expect(view.cylinder.netGrams).toBe(11_000);
});

test('against another gas than what is inside, or of mixed gas, it clears nothing', async () => {
  const id = await full('X');
  const T = await bottle(firm, 'X2', { gas: { refrigerant: 'R-22', state: 'recovered', gross: gross(5_000) } });
  const moves: CommandBody<'record-transfer'> = {
    from: { cylinderId: T, weights: { before: gross(5_000), after: gross(4_000) } },
    to: { cylinderId: id, evacuated: false },
    doubts: ['hoses-not-purged'],
  };
  await firm.send('warehouse', 'record-transfer', moves, { at: onDay('2026-05-04')('10:00') });
  const quiet = { ...FINE, pressure: { value: '78.7', unit: 'psig' as const } };
  const answer = await firm.send('warehouse', 'record-air-check', reading(id, quiet), {
    at: onDay('2026-05-04')('11:00'),
  });
  expect(answer.asks.map(({ code }) => code)).toEqual(['air-not-defined', 'purity-not-certifiable']);
  expect((await world.office.cylinder(firm.actors.warehouse, id)).doubts).toMatchObject([
    { cause: 'hoses-not-purged' },
  ]);
});

test('the desk that places visits does not check cylinders', async () => {
  const id = await full('D');
  const refused = await refusalOf(firm.send('dispatcher', 'record-air-check', reading(id)));
  expect(refused.code).toBe('not-allowed');
});
