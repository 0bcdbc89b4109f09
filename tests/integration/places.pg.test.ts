import { beforeAll, describe, expect, test } from 'vitest';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
beforeAll(async () => {
  ({ firm } = await told(world));
});
const lb = (value: string) => ({ value, unit: 'lb' as const });
const unitOf = (unitId: string) => office.unit(firm.actors.owner, unitId);
const circuitOf = async (unitId: string) => {
  const [circuit] = (await unitOf(unitId)).circuits;
  if (!circuit) throw new Error('a unit without a circuit');
  return circuit;
};

/** A rooftop of comfort cooling, called in with no more than what the telephone gave. */
async function calledIn(more: { mass: string; use: 'comfort-cooling' | 'commercial-refrigeration' }) {
  const of = { customer: newId(), site: newId(), unit: newId(), circuit: newId(), addition: newId() };
  await firm.send('dispatcher', 'take-call', {
    customer: { id: of.customer, new: { name: 'Tern Mills' } },
    site: { id: of.site, new: { address: '7 Weir Walk, Dunmoor', timeZone: 'America/Denver' } },
    unit: { id: of.unit, new: { tag: 'R-9' } },
    circuit: {
      id: of.circuit,
      new: {
        refrigerant: 'R-410A',
        use: more.use,
        fullCharge: { mass: lb(more.mass), method: 'manufacturer' },
      },
    },
    history: [{ id: of.addition, onDay: '2026-03-01', mass: lb('6'), by: 'us' }],
    visit: { id: newId() },
  });
  return of;
}

describe('a site', () => {
  test('of unknown height is read as at sea level, and says so, until the height is known', async () => {
    const of = await calledIn({ mass: '60', use: 'comfort-cooling' });
    expect((await unitOf(of.unit)).site).toMatchObject({ elevationM: 0, elevationAssumed: true, coordinates: null });
    await firm.send('dispatcher', 'describe-site', {
      siteId: of.site,
      elevationM: 1600,
      coordinates: { latitude: 39.7392, longitude: -104.9903 },
      contact: { name: 'Ivo Lark', phone: '555 0117' },
    });
    await firm.send('dispatcher', 'describe-site', { siteId: of.site, contact: { name: 'Ada Lark' } });
    const { site } = await unitOf(of.unit);
    expect(site).toMatchObject({
      elevationM: 1600,
      elevationAssumed: false,
      coordinates: { latitude: 39.7392, longitude: -104.9903 },
      contact: { name: 'Ada Lark', phone: null },
    });
    // ISO 2533 gives 83.5 kPa at 1,600 m.
    expect(site.barometerKpa).toBeCloseTo(83.5, 1);
  });
});

describe('a full charge', () => {
  test('holds from its day on; the rates of the days before stay on the figure before', async () => {
    const of = await calledIn({ mass: '60', use: 'commercial-refrigeration' });
    const before = await circuitOf(of.unit);
    // 40 CFR 84.106(b)(1): 6 of 60 lb.
    expect(before.latest).toMatchObject({ ratePercent: '10.00', over: false });
    await firm.send('dispatcher', 'set-full-charge', {
      circuitId: of.circuit,
      fromOn: '2026-04-01',
      fullCharge: { mass: lb('40'), method: 'range', low: lb('30'), high: lb('50') },
    });
    const after = await circuitOf(of.unit);
    expect(after.fullCharge).toMatchObject({ mass: lb('40'), rangeText: '30 to 50 lb', fromOn: '2026-04-01' });
    expect(after.latest).toMatchObject({ ratePercent: '10.00' });
    expect(after.headroom?.mass).not.toEqual(before.headroom?.mass);
  });

  test('put right for the same day: the later figure holds, in the sums and on the page', async () => {
    const of = await calledIn({ mass: '600', use: 'commercial-refrigeration' });
    await firm.send('dispatcher', 'set-full-charge', {
      circuitId: of.circuit,
      fromOn: '2026-03-01',
      fullCharge: { mass: lb('60'), method: 'manufacturer' },
    });
    const circuit = await circuitOf(of.unit);
    expect(circuit.fullCharge.mass).toEqual(lb('60'));
    expect(circuit.latest).toMatchObject({ ratePercent: '10.00' });
  });

  test.each([
    [
      'a day ahead',
      { fromOn: '2026-05-02', fullCharge: { mass: lb('60'), method: 'measured' as const } },
      'Holds from',
    ],
    [
      'half a range',
      { fromOn: '2026-04-01', fullCharge: { mass: lb('60'), method: 'range' as const, low: lb('50') } },
      'a range needs both ends',
    ],
    [
      'a midpoint that is none',
      { fromOn: '2026-04-01', fullCharge: { mass: lb('60'), method: 'range' as const, low: lb('50'), high: lb('80') } },
      'the midpoint counts',
    ],
  ])('%s is refused', async (_name, body, words) => {
    const of = await calledIn({ mass: '60', use: 'comfort-cooling' });
    const refusal = await refusalOf(firm.send('dispatcher', 'set-full-charge', { circuitId: of.circuit, ...body }));
    expect(Object.values(faultsIn(refusal)).join(' ')).toContain(words);
  });
});

describe('a circuit', () => {
  test('said to be of the excluded subsector has no rulebook, and comes back into it when that is taken back', async () => {
    const of = await calledIn({ mass: '60', use: 'comfort-cooling' });
    const hfc = async () => (await circuitOf(of.unit)).rulebooks.find(({ rulebook }) => rulebook === 'us-hfc');
    expect((await hfc())?.inScope).toBe(true);
    await firm.send('dispatcher', 'describe-circuit', {
      circuitId: of.circuit,
      equipment: 'rooftop',
      subsector: 'residential-light-commercial-ac',
      why: 'A rooftop that cools offices.',
    });
    expect(await hfc()).toMatchObject({ inScope: false });
    expect(await circuitOf(of.unit)).toMatchObject({
      equipment: 'rooftop',
      subsector: 'residential-light-commercial-ac',
      decision: 'A rooftop that cools offices.',
    });
    await firm.send('dispatcher', 'describe-circuit', {
      circuitId: of.circuit,
      subsector: 'none',
      why: 'It cools a server room.',
    });
    expect((await hfc())?.inScope).toBe(true);
  });

  test('of another contractor is no circuit at all', async () => {
    const refusal = await refusalOf(
      firm.send('dispatcher', 'describe-circuit', { circuitId: newId(), why: 'Seen there.', equipment: 'rack' }),
    );
    expect(refusal.code).toBe('not-found');
  });
});
