import type { CommandBody, ServiceRecordView } from '@ullage/contracts';
import { beforeAll, describe, expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

const world = await openTestOffice('2026-04-30T13:00:00.000Z');
const { office } = world;
const today = onDay('2026-04-30');

interface Told {
  readonly firm: Contractor;
  readonly of: StoryIds;
}
/** The story with the last charge ended at another weight, and Rosa Quill placed on the visit. */
async function told(name: string, lastAfter: string): Promise<Told> {
  const firm = await world.contractor(name);
  const of = ids();
  world.clock.now = today('07:30');
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }));
  const paper = (type: 'II' | 'universal', registeredOn: string) =>
    ({ id: newId(), scheme: 'us-608', type, registeredOn }) as const;
  await firm.send('manager', 'register-person', {
    personId: of.technician,
    name: 'Rosa Quill',
    // The second is of after the visit: the papers of the day do not know it.
    certificates: [paper('II', '2020-06-01'), paper('universal', '2026-05-01')],
  });
  await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas);
  const at = { day: '2026-04-30', time: '08:30', minutes: 420 };
  await firm.send('dispatcher', 'place-visit', { visitId: of.visit, version: 1, personId: of.technician, ...at });
  const steps = visitSteps(of, today).map((step) => {
    if (step[0] !== 'record-charge' || step[2].id !== of.chargeMore) return step;
    const body: CommandBody<'record-charge'> = { ...step[1], after: { value: lastAfter, unit: 'lb' } };
    return ['record-charge', body, step[2]] as const;
  });
  await run(firm, steps, world.clock);
  return { firm, of };
}
const sheetOf = async ({ firm, of }: Told) => {
  const [circuit] = (await office.unit(firm.actors.owner, of.unit)).circuits;
  const calculation = circuit!.calculations.find(({ onDay: day, standing }) => day === '2026-04-30' && standing)!;
  return office.leakRateSheet(firm.actors.owner, calculation.id);
};

describe('the leak-rate sheet', () => {
  test('names who was there and who weighed, with the certificate of the day', async () => {
    const sheet = await sheetOf(await told('Tarn & Bracken Cooling', '115.54'));
    expect(sheet.technicians.map(({ name, certificates }) => [name, certificates])).toEqual([
      ['Rosa Quill', 'Type II'],
      ['technician of Tarn & Bracken Cooling', 'no certificate'],
    ]);
    expect(sheet.facts.map(({ title, summary }) => [title, summary])).toEqual([
      ['Charge', '72575 g to 60575 g gross, from N-22'],
      ['Charge', '133.54 lb to 115.54 lb gross, from N-22'],
    ]);
  });

  test('gives both readings: net, and by gross weight with what was put back', async () => {
    const { calculation } = await sheetOf(await told('Two Readings Cooling', '115.54'));
    // Net 18 lb; gross 18 lb + 12,000 g = 44.455... lb. 44.455 / 220 x 365 / 75 = 98.34 % (40 CFR 84.102, annualizing).
    expect([calculation.ratePercent, calculation.alternative?.ratePercent]).toEqual(['39.82', '98.34']);
    expect(calculation.alternative?.leakMass.value).toMatch(/^44\.455/);
    expect(calculation.alternative?.over).toBe(calculation.over);
  });

  test('and says it before anything else where the two give two verdicts', async () => {
    const sheet = await sheetOf(await told('Two Verdicts Cooling', '129.54'));
    const { calculation } = sheet;
    // Net 4 lb / 220 lb x 365 / 75 = 8.85 %, not over 20 %; with the 12,000 g put back 67.37 %, over.
    expect([calculation.ratePercent, calculation.over]).toEqual(['8.85', false]);
    expect([calculation.alternative?.ratePercent, calculation.alternative?.over]).toEqual(['67.37', true]);
    expect(calculation.reasons[0]?.text).toContain('two readings of the rule give different verdicts');
    expect(sheet.duties).toEqual([]);
  });

  test('of an addition that was only told names nobody', async () => {
    const { firm, of } = await told('Only Told Cooling', '115.54');
    const [circuit] = (await office.unit(firm.actors.owner, of.unit)).circuits;
    const first = circuit!.calculations.find(({ onDay: day }) => day === '2026-02-14')!;
    const sheet = await office.leakRateSheet(firm.actors.owner, first.id);
    expect([sheet.technicians, sheet.facts.map(({ title, visitId }) => [title, visitId])]).toEqual([
      [],
      [['Past addition', null]],
    ]);
  });
});

/** 40 CFR 82.157(l)(2)(i) to (vi), item by item; the order is the rule's. */
describe('the service record has what a contractor owes', () => {
  let record: ServiceRecordView;
  beforeAll(async () => {
    const { firm, of } = await told('Owing Cooling', '115.54');
    record = await office.serviceRecord(firm.actors.manager, of.visit);
  });

  test('under the rule that covers the circuit', () => expect(record.clauses).toEqual(['40 CFR 84.106(l)(2)']));
  test('(i) identity and location', () => {
    expect(record.units).toEqual([{ tag: '0417-A', description: 'Dairy rack', refrigerant: 'R-448A' }]);
    expect([record.site.address, record.site.customer.name]).toEqual(['14 Quarry Bend, Dunmoor', 'Larkspur Foods']);
  });
  test('(ii) date: a correction of another day is none', () => expect(record.days).toEqual(['2026-04-30']));
  test('(iii), (iv), (v) each part with each kind of work done on it, and who did it', () => {
    expect(record.parts.map(({ part, work }) => [part, work])).toEqual([
      ['Service valve core', 'Leak search: Electronic detector, clear'],
      ['Flare nut, case 7', 'Leak search: Soap bubbles, found'],
      ['Isolated part of the circuit', 'Refrigerant recovered'],
      ['Flare nut, Expansion valve, case 7 (L1)', 'New flare, nut tightened to the maker’s torque'],
      ['Filter drier', 'Changed'],
      ['Refrigerant circuit', 'Evacuated, vacuum hold: pass'],
      ['Refrigerant circuit', 'Refrigerant charged by weight'],
    ]);
    expect(new Set(record.parts.map(({ circuitTag }) => circuitTag))).toEqual(new Set(['0417-A']));
    expect(record.parts.every(({ by }) => by !== '')).toBe(true);
    expect(record.technicians.map(({ name }) => name)).toContain('Rosa Quill');
  });
  test('(vi) amount and type added and removed, each weighing and in all', () => {
    expect(
      record.gas.map(({ direction, refrigerant, mass, cylinder }) => [direction, refrigerant, mass, cylinder]),
    ).toEqual([
      ['removed', 'R-448A', { value: '12000', unit: 'g' }, 'C-31'],
      ['added', 'R-448A', { value: '12000', unit: 'g' }, 'N-22'],
      ['added', 'R-448A', { value: '18', unit: 'lb' }, 'N-22'],
    ]);
    // 12,000 g / 453.59237 = 26.455 lb.
    expect(record.gasTotals).toEqual([
      {
        circuitTag: '0417-A',
        refrigerant: 'R-448A',
        added: { value: '44.455', unit: 'lb' },
        removed: { value: '26.455', unit: 'lb' },
        net: { value: '18', unit: 'lb', direction: 'added' },
      },
    ]);
  });
  test('and, of whoever inspects or tests, dates, places, methods, results and what was not accessible', () => {
    const place = 'Flare nut, Expansion valve, case 7 (L1)';
    expect(record.tests).toMatchObject([{ kind: 'Initial verification test', where: place, result: 'pass' }]);
    expect(record.inspections).toMatchObject([
      {
        methods: 'Electronic detector, Soap bubbles',
        leaking: [place],
        inaccessible: ['Line in the wall: Behind insulation'],
        certified: true,
      },
    ]);
    expect(
      [...record.tests, ...record.inspections].every(({ by, at }) => by !== '' && at.startsWith('2026-04-30')),
    ).toBe(true);
  });
  test('and leaves out (vii) full charge and (viii) leak rate, which are the owner’s', () =>
    expect(JSON.stringify(record)).not.toMatch(/39\.82|98\.34|"220"|[rR]atePercent|[fF]ullCharge/));
});
