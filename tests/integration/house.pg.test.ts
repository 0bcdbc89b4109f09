/** The contractor's own house: its units, the places where things stand, and its instruments. */
import { beforeAll, expect, test } from 'vitest';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { faultsIn, refusalOf } from '../support/refused.ts';
import { told } from '../support/told.ts';
import { bodiesOf } from '../support/bodies.ts';
import type { Scene } from '../support/bodies.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  ({ firm, scene } = await told(world));
});

test('units change what is offered and shown from now on, and nothing that was entered', async () => {
  const { auditor } = firm.actors;
  const entered = async () =>
    (await office.visit(auditor, scene.of.visit)).facts.map(({ summary, body }) => ({ summary, body }));
  const before = await entered();
  expect(JSON.stringify(before)).toContain('"unit":"lb"');
  expect(await office.settings(auditor)).toEqual({
    massUnit: 'lb',
    pressureUnit: 'psig',
    temperatureUnit: 'F',
    vacuumUnit: 'micron',
    shopExcessKpa: 69, // common practice
    currency: 'USD',
    gwpSet: 'AR4',
  });
  await firm.send('manager', 'change-settings', { massUnit: 'kg', vacuumUnit: 'pa', shopExcessKpa: 50.5 });
  expect(await office.settings(auditor)).toEqual({
    massUnit: 'kg',
    pressureUnit: 'psig',
    temperatureUnit: 'F',
    vacuumUnit: 'pa',
    shopExcessKpa: 50.5,
    currency: 'USD',
    gwpSet: 'AR4',
  });
  expect((await office.me(auditor)).tenant).toMatchObject({ massUnit: 'kg', vacuumUnit: 'pa' });
  expect(await entered()).toEqual(before);
  // What is worked out follows: 18 lb net are 8.165 kg (0.45359237 kg to the pound, NIST SP 811).
  const { gasTotals } = await office.serviceRecord(auditor, scene.of.visit);
  expect(gasTotals[0]?.net).toMatchObject({ value: '8.165', unit: 'kg' });
});

test('currency and GWP set count for the lists from now on; a list may still be asked for another set', async () => {
  const { manager } = firm.actors;
  const repeats = async (gwp?: 'AR4') => {
    const { gwpSet, currency } = await office.repeats(manager, { gwp });
    return [gwpSet, currency];
  };
  expect(await repeats()).toEqual(['AR4', 'USD']);
  await firm.send('manager', 'change-settings', { currency: 'CAD', gwpSet: 'AR6' });
  expect(await office.settings(manager)).toMatchObject({ currency: 'CAD', gwpSet: 'AR6' });
  expect(await repeats()).toEqual(['AR6', 'CAD']);
  expect(await repeats('AR4')).toEqual(['AR4', 'CAD']);
  await firm.send('manager', 'change-settings', { currency: 'USD', gwpSet: 'AR4' });
});

test('the shop limit counts for air checks to come; one that was answered keeps the limit of its day', async () => {
  const bodies = bodiesOf({ world, firm, scene });
  const check = async () => firm.send('warehouse', 'record-air-check', await bodies['record-air-check']());
  const limits = async () =>
    (await office.cylinder(firm.actors.auditor, scene.of.recovery)).airChecks.map(({ limitKpa }) => limitKpa);
  await firm.send('manager', 'change-settings', { shopExcessKpa: 69 });
  await check();
  expect(await limits()).toEqual([69]);
  await firm.send('manager', 'change-settings', { shopExcessKpa: 41 });
  await check();
  expect(new Set(await limits())).toEqual(new Set([41, 69]));
});

test('a figure without sense, or no change at all, is told at its field', async () => {
  for (const [body, pointer] of [
    [{ shopExcessKpa: 0 }, '#/body/shopExcessKpa'],
    [{ massUnit: 'oz' }, '#/body/massUnit'],
    [{ pressureUnit: 'micron' }, '#/body/pressureUnit'],
    [{}, '#/body'],
  ] as const) {
    const refused = await refusalOf(firm.send('owner', 'change-settings', body as never));
    expect(Object.keys(faultsIn(refused))).toEqual([pointer]);
  }
});

test('only whoever runs the firm changes its settings; the warehouse registers places', async () => {
  for (const role of ['dispatcher', 'warehouse', 'technician', 'auditor'] as const)
    expect((await refusalOf(firm.send(role, 'change-settings', { massUnit: 'kg' }))).code).toBe('not-allowed');
  const body = { locationId: newId(), kind: 'van' as const, name: 'Van 2', elevationM: 1655 };
  for (const role of ['dispatcher', 'technician', 'auditor'] as const)
    expect((await refusalOf(firm.send(role, 'register-location', body))).code).toBe('not-allowed');
  await firm.send('warehouse', 'register-location', { ...body, keeperId: scene.of.technician });
  const { items, people } = await office.locations(firm.actors.auditor);
  expect(items.find(({ id }) => id === body.locationId)).toEqual({
    id: body.locationId,
    kind: 'van',
    name: 'Van 2',
    elevationM: 1655,
    keeper: { id: scene.of.technician, name: 'Rosa Quill' },
  });
  expect(people.map(({ id }) => id)).toContain(scene.of.technician);
});

test('a location changes its name and height, and can be kept by nobody', async () => {
  const locationId = scene.location;
  await firm.send('warehouse', 'change-location', { locationId, keeperId: scene.of.technician, elevationM: 1600 });
  await firm.send('warehouse', 'change-location', { locationId, name: 'North store', keeperId: null });
  const { items } = await office.locations(firm.actors.owner);
  expect(items.find(({ id }) => id === locationId)).toMatchObject({
    name: 'North store',
    elevationM: 1600,
    keeper: null,
  });
});

test('an instrument goes to somebody else, keeps its checks and calibrations, and is retired once', async () => {
  const instrumentId = scene.of.detector;
  const itemOf = async () => {
    const { items } = await office.instruments(firm.actors.auditor);
    return items.find(({ id }) => id === instrumentId);
  };
  expect((await itemOf())?.checks).toMatchObject([{ what: 'check', result: 'pass', visitId: scene.of.visit }]);
  const twin = await refusalOf(firm.send('warehouse', 'change-instrument', { instrumentId, tag: 'S-3' }));
  expect(faultsIn(twin)).toEqual({
    '#/body/tag': 'Tag: S-3 stands on another instrument; give this one its own.',
  });
  await firm.send('technician', 'change-instrument', { instrumentId, carrierId: scene.of.apprentice });
  const calibrated = {
    instrumentId,
    calibratedOn: '2026-05-01',
    by: 'Front Range Metrology',
    result: 'adjusted' as const,
    nextOn: '2027-04-28',
  };
  const ahead = await refusalOf(firm.send('warehouse', 'record-calibration', calibrated));
  expect(Object.keys(faultsIn(ahead))).toEqual(['#/body/calibratedOn']);
  await firm.send('warehouse', 'record-calibration', { ...calibrated, calibratedOn: '2026-04-28' });
  expect(await itemOf()).toMatchObject({
    carrier: { name: 'Teo Finch' },
    retiredAt: null,
    // Newest first: the tool check was made on the 30th.
    checks: [
      { what: 'check', on: '2026-04-30' },
      { what: 'calibration', on: '2026-04-28', by: 'Front Range Metrology', result: 'adjusted', nextOn: '2027-04-28' },
    ],
  });
  await firm.send('warehouse', 'retire-instrument', { instrumentId, why: 'Pump is worn' });
  expect((await itemOf())?.retiredAt).toBe('2026-04-30T23:00:00.000Z');
  const again = await refusalOf(firm.send('warehouse', 'retire-instrument', { instrumentId, why: 'Once more' }));
  expect(again.code).toBe('not-possible');
  // It is offered to nobody any more; the looks made with it keep its name.
  const visit = await office.visit(firm.actors.technician, scene.onSite);
  expect(visit.instruments.map(({ id }) => id)).not.toContain(instrumentId);
});
