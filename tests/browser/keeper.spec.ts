import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { pressAt, typeAt } from './parts/desk.ts';
import { aFirm, command, joined, lb, newId } from './parts/firm.ts';

/** The keeper sends two cylinders to a reclaimer, says what was accepted, and loses and finds another, by keyboard. */
let owner: BrowserContext;
let keeper: BrowserContext;
let desk: Page;
let faults: string[];
const lost = newId();
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Plover Refrigeration');
  const shelf = newId();
  for (const [locationId, kind, name] of [
    [shelf, 'warehouse', 'Shelf 2'],
    [newId(), 'reclaimer', 'Sage Reclaim'],
  ] as const)
    await command(owner, 'register-location', { locationId, kind, name, elevationM: 0 });
  for (const [cylinderId, label] of [
    [newId(), 'C-81'],
    [newId(), 'C-82'],
    [lost, 'C-83'],
  ] as const) {
    await command(owner, 'register-cylinder', {
      ...{ cylinderId, kind: 'recovery', specification: 'DOT-4BA400', serial: `S-${label}`, label },
      ...{ waterCapacity: lb('47.6'), tare: lb('28'), servicePressurePsig: 400, testedMonth: '2024-03' },
      gas: { refrigerant: 'R-410A', state: 'recovered', gross: lb('48') },
    });
    await command(owner, 'hand-over', { cylinders: [{ cylinderId, fromId: null }], toId: shelf });
  }
  keeper = await joined(browser, owner, { name: 'Ada Moss', role: 'warehouse' });
  desk = await keeper.newPage();
  faults = listenForFaults(desk);
});
test.afterAll(async () => {
  await keeper.close();
  await owner.close();
});
const handle = async (name: string): Promise<void> => {
  await pressAt(desk, desk.getByRole('button', { name: 'Handle' }));
  await desk.getByRole('menuitem', { name: new RegExp(`^${name}`) }).press('Enter');
  await expect(desk.getByRole('dialog')).toBeVisible();
};
const press = async (name: string): Promise<void> => {
  await pressAt(desk, desk.getByRole('dialog').getByRole('button', { name }));
  await expect(desk.getByRole('dialog')).toHaveCount(0);
};
/** In light and dark, at a desk and on a phone. */
async function look(what: string): Promise<void> {
  await expectAxeClean(desk, what);
  await desk.setViewportSize({ ...PHONE.viewport });
  await expectAxeClean(desk, `${what} on a phone`);
  await expectNoSideways(desk);
  await desk.setViewportSize({ width: 1440, height: 900 });
}
const head = () => desk.locator('main header');

test('two cylinders go on a manifest, one scanned and one chosen; what is forgotten is told at its field', async () => {
  await desk.goto('/cylinders');
  await pressAt(desk, desk.getByRole('link', { name: 'Manifests' }));
  await expect(desk.getByText('Nothing was sent yet.')).toBeVisible();
  await look('no manifests');
  await pressAt(desk, desk.getByRole('link', { name: 'Send cylinders' }));
  const form = desk.getByRole('form', { name: 'Send cylinders' });
  await expect(form.getByLabel('Receiver')).toHaveValue(/./);
  await pressAt(desk, form.getByRole('button', { name: /^Send/ }));
  await expect(form).toContainText('Cylinders: choose at least one.');
  await typeAt(desk, form.getByLabel('Carrier'), 'Own van');
  await typeAt(desk, form.getByLabel('Serial', { exact: true }), 'C-99\n');
  await expect(form).toContainText('C-99: no cylinder has that serial or label.');
  await typeAt(desk, form.getByLabel('Serial', { exact: true }), 's-c-81\n');
  await pressAt(desk, form.getByRole('button', { name: 'Add C-82' }));
  await expect(form.getByRole('list', { name: 'On the manifest' }).getByRole('listitem')).toHaveCount(2);
  await typeAt(desk, form.getByLabel('Gross weight of C-81', { exact: true }), '48');
  await typeAt(desk, form.getByLabel('Gross weight of C-82', { exact: true }), '47.5');
  await look('sending');
  await pressAt(desk, form.getByRole('button', { name: 'Send two cylinders' }));
  await expect(desk.getByRole('heading', { name: 'Manifest to Sage Reclaim' })).toBeVisible();
  await expect(desk.getByRole('row', { name: /C-82/ })).toContainText('8,845 g');
});

test('what was accepted of one is less, and wants a reason', async () => {
  await pressAt(desk, desk.getByRole('button', { name: 'Accepted of C-81' }));
  const dialog = desk.getByRole('dialog');
  await typeAt(desk, dialog.getByLabel('Accepted', { exact: true }), '19');
  await pressAt(desk, dialog.getByRole('button', { name: 'Save' }));
  await expect(dialog).toContainText('Why the weights differ: 9071 g were sent; say what the receiver said.');
  await typeAt(desk, dialog.getByRole('textbox', { name: /^Why the weights differ/ }), 'By their ticket');
  await expectAxeClean(desk, 'what was accepted');
  await press('Save');
  await expect(desk.getByRole('row', { name: /C-81/ })).toContainText('−453 g to what was sent: By their ticket');
  await look('a manifest');
});

test('its paper names both cylinders, their gas and their weights', async () => {
  await pressAt(desk, desk.getByRole('link', { name: 'Paper to print' }));
  await expect(desk.getByRole('heading', { name: 'Manifest of refrigerant for reclaim' })).toBeVisible();
  await expect(desk.getByRole('article')).toContainText('This is no shipping paper');
  await look('the paper of a manifest');
  await pressAt(desk, desk.getByRole('link', { name: 'The manifest' }));
  await desk.goto('/cylinders/manifests');
  await expect(desk.getByRole('row', { name: /Sage Reclaim/ })).toContainText('1 of 2 accepted');
  await look('manifests');
});

test('a cylinder is lost, found among the lost, and found again', async () => {
  await desk.goto('/cylinders?query=s-c-83');
  await expect(desk).toHaveURL(new RegExp(`/cylinders/${lost}$`));
  await handle('Mark lost');
  await typeAt(desk, desk.getByLabel('Why', { exact: true }), 'Not on the shelf');
  await expectAxeClean(desk, 'losing');
  await press('Mark lost');
  await expect(head()).toContainText('Lost');
  await look('a lost cylinder');
  await desk.goto('/cylinders?place=lost');
  await expect(desk.getByRole('row', { name: /C-83/ })).toContainText('Lost');
  await look('the lost ones');
  await pressAt(desk, desk.getByRole('link', { name: 'C-83' }));
  await handle('It is found');
  await desk.getByLabel('Where it is', { exact: true }).selectOption({ label: 'Shelf 2' });
  await typeAt(desk, desk.getByLabel('Gross weight', { exact: true }), '46');
  await expectAxeClean(desk, 'finding');
  await press('It is found');
  await expect(head()).toContainText('18.00 lb net');
  await expect(head()).toContainText('kept at Shelf 2');
});

test('it was another cylinder: the find is taken back, and it is lost again', async () => {
  await pressAt(desk, desk.getByRole('button', { name: 'Take back: Found again' }));
  await typeAt(desk, desk.getByLabel('Why', { exact: true }), 'It was C-38');
  await expectAxeClean(desk, 'taking back');
  await press('Take it back');
  await expect(head()).toContainText('Lost');
});

test('nothing but the two refused forms went wrong on the way', () =>
  expect(faults.map((fault) => /status of 4\d\d/.test(fault) || fault)).toEqual([true, true]));
