import { beforeAll, expect, test } from 'vitest';
import type { Scene } from '../support/bodies.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { told } from '../support/told.ts';

const world = await openTestOffice('2026-04-30T23:00:00.000Z');
const { office } = world;
let firm: Contractor;
let scene: Scene;
const lb = (value: string) => ({ value, unit: 'lb' as const });
beforeAll(async () => {
  ({ firm, scene } = await told(world));
  const stamps = { specification: 'DOT-4BA400', waterCapacity: lb('47.6'), tare: lb('28') };
  await firm.send('warehouse', 'register-cylinder', {
    ...{ cylinderId: newId(), kind: 'refillable', serial: 'E-1', dedicatedTo: 'R-134a', ...stamps },
  });
  await firm.send('warehouse', 'register-cylinder', {
    ...{ cylinderId: newId(), kind: 'refillable', serial: 'NG-9', ...stamps },
    gas: { refrigerant: 'R-134a', state: 'new', gross: lb('50') },
  });
});
type Asked = Parameters<typeof office.cylinders>[1];
const serials = async (asked: Asked): Promise<string[]> =>
  (await office.cylinders(firm.actors.warehouse, asked)).items.map(({ serial }) => serial);

test('the list is asked for the gas that is held, whatever the cylinder is for', async () => {
  expect(await serials({})).toEqual(['TB-30811', 'NG-2207', 'E-1', 'NG-9']);
  expect(await serials({ gas: 'R-448A' })).toEqual(['TB-30811', 'NG-2207']);
  expect(await serials({ gas: 'R-134a' })).toEqual(['NG-9']);
  expect(await serials({ gas: 'empty' })).toEqual(['E-1']);
  expect(await serials({ gas: 'R-1234yf' })).toEqual([]);
});
test('text finds a gas that is in it as well as the one it is for, and takes no sign for a pattern', async () => {
  expect(await serials({ query: 'r-134A' })).toEqual(['E-1', 'NG-9']);
  expect(await serials({ query: '448' })).toEqual(['TB-30811', 'NG-2207']);
  expect([await serials({ query: '%' }), await serials({ query: '_' })]).toEqual([[], []]);
});
test('it is asked for doubt, and for the site where a cylinder was last weighed', async () => {
  expect(await serials({ doubt: 'doubted' })).toEqual(['TB-30811']);
  expect(await serials({ doubt: 'undoubted', gas: 'R-448A' })).toEqual(['NG-2207']);
  expect(await serials({ site: scene.of.site })).toEqual(['TB-30811', 'NG-2207']);
  expect(await serials({ site: newId() })).toEqual([]);
});
test('it offers only what can be found, and says where each was last on a scale', async () => {
  const { gases, places, items } = await office.cylinders(firm.actors.warehouse, {});
  expect(gases).toEqual(['R-134a', 'R-448A']);
  expect(places.map(({ id }) => id)).toEqual([scene.of.site]);
  const weighed = Object.fromEntries(items.map(({ serial, lastWeighed }) => [serial, lastWeighed]));
  expect(weighed['TB-30811']).toMatchObject({ site: '14 Quarry Bend, Dunmoor', visitId: scene.of.visit });
  expect(weighed['NG-9']).toMatchObject({ site: null, visitId: null });
  expect(weighed['E-1']).toBeNull();
});
test('it is asked for a place, and says how many are at each; one that is gone is found by its text', async () => {
  const gone = newId();
  const yard = scene.location;
  await firm.send('warehouse', 'register-cylinder', {
    ...{ cylinderId: gone, kind: 'refillable', serial: 'GONE-1', specification: 'DOT-4BA400' },
    ...{ waterCapacity: lb('47.6'), tare: lb('28') },
  });
  const returned = { cylinderId: gone, fromId: null, supplier: 'Nettle Gases', gross: lb('28') };
  await firm.send('warehouse', 'return-cylinder', returned);
  const lost = (await office.cylinders(firm.actors.warehouse, { query: 'NG-9' })).items[0]!.id;
  await firm.send('warehouse', 'mark-lost', { cylinderId: lost, why: 'Not on the shelf' });
  expect(await serials({ place: yard })).toEqual(['TB-30811']);
  expect(await serials({ place: 'lost' })).toEqual(['NG-9']);
  expect(await serials({ place: 'gone' })).toEqual(['GONE-1']);
  expect(await serials({ place: 'nowhere' })).toEqual(['NG-2207', 'E-1']);
  expect(await serials({})).not.toContain('GONE-1');
  expect(await serials({ query: 'GONE' })).toEqual(['GONE-1']);
  const { kept } = await office.cylinders(firm.actors.warehouse, {});
  expect(kept.map(({ place, name, cylinders }) => [place, name, cylinders])).toEqual([
    [yard, 'Yard', 1],
    ['gone', null, 1],
    ['lost', null, 1],
    ['nowhere', null, 2],
  ]);
});
test('a page ends where the next begins under a filter too', async () => {
  const [first] = (await office.cylinders(firm.actors.warehouse, { gas: 'R-448A' })).items;
  expect(await serials({ gas: 'R-448A', after: first?.id })).toEqual(['NG-2207']);
});
