import type { BrowserContext, Page } from '@playwright/test';
import type { CylinderListView } from '@ullage/contracts';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { pressAt, typeAt } from './parts/desk.ts';
import { aFirm, command, get, joined, newId } from './parts/firm.ts';

/** The keeper's counter: a delivery, a weighing, a hand-over, a tare put right and a label, mostly by keyboard. */
let owner: BrowserContext;
let keeper: BrowserContext;
let desk: Page;
let faults: string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Dunlin Cooling');
  for (const [kind, name] of [
    ['warehouse', 'Shelf 2'],
    ['van', 'Van 3'],
  ] as const)
    await command(owner, 'register-location', { locationId: newId(), kind, name, elevationM: 0 });
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
const save = async (): Promise<void> => {
  await pressAt(desk, desk.getByRole('dialog').getByRole('button', { name: 'Save' }));
  await expect(desk.getByRole('dialog')).toHaveCount(0);
};
const head = () => desk.locator('main header');

test('three disposables come in by scanner, and one serial not twice', async () => {
  await desk.goto('/cylinders');
  await pressAt(desk, desk.getByRole('link', { name: 'Delivery' }));
  await expect(desk.getByRole('heading', { name: 'Delivery' })).toBeVisible();
  // Not by role: while a list of choices is open, all else is hidden from the accessibility tree.
  const form = desk.locator('form[aria-label="Delivery"]');
  await form.getByRole('button', { name: /^Take in/ }).click();
  await expect(form).toContainText('Cylinders: scan or type at least one serial.');
  await typeAt(desk, form.getByLabel('Supplier'), 'Nettle Gases');
  await form.getByLabel('Where they go').selectOption({ label: 'Shelf 2' });
  await typeAt(desk, form.getByRole('combobox', { name: 'Refrigerant', includeHidden: true }), '134a');
  await desk.keyboard.press('Tab');
  for (const [label, text] of [
    ['Net weight', '25'],
    ['Water capacity', '28'],
    ['Tare', '6'],
  ] as const)
    await typeAt(desk, form.getByLabel(label, { exact: true }), text);
  for (const serial of ['N-501', 'N-502', 'n-501', 'N-503'])
    await typeAt(desk, form.getByLabel('Serial', { exact: true }), `${serial}\n`);
  await expect(form.getByRole('list', { name: 'Serials taken' }).getByRole('listitem')).toHaveCount(3);
  await expectAxeClean(desk, 'the delivery');
  await desk.setViewportSize({ ...PHONE.viewport });
  await expectNoSideways(desk);
  await desk.setViewportSize({ width: 1440, height: 900 });
  await pressAt(desk, form.getByRole('button', { name: 'Take in three cylinders' }));
  await expect(desk).toHaveURL(/\/cylinders$/);
  await expect(desk.getByRole('row', { name: /N-502/ })).toContainText('Shelf 2');
});

test('one is weighed, handed to a van, and its tare put right', async () => {
  const { items } = await get<CylinderListView>(keeper, '/v1/cylinders?query=N-502');
  await desk.goto(`/cylinders/${items[0]?.id}`);
  await expect(head()).toContainText('25.00 lb net');
  await handle('Weigh');
  await typeAt(desk, desk.getByLabel('Gross weight', { exact: true }), '28');
  await expectAxeClean(desk, 'weighing');
  await save();
  await expect(head()).toContainText('22.00 lb net');
  await handle('Hand over');
  await expect(desk.getByRole('dialog')).toContainText('Now at Shelf 2.');
  await desk.getByLabel('To', { exact: true }).selectOption({ label: 'Van 3' });
  await expectAxeClean(desk, 'handing over');
  await save();
  await expect(head()).toContainText('kept at Van 3');
  await handle('Put the tare right');
  await typeAt(desk, desk.getByLabel('Tare', { exact: true }), '7');
  await typeAt(desk, desk.getByLabel('Why', { exact: true }), 'A 7 was read as a 6.');
  await expectAxeClean(desk, 'the tare');
  await save();
  await expect(head()).toContainText('21.00 lb net');
});

test('its label carries a code of the address of its page', async () => {
  await pressAt(desk, desk.getByRole('link', { name: 'label to print' }));
  const code = desk.getByRole('img', { name: /^Code of http:\/\/localhost:\d+\/cylinders\// });
  await expect(code).toBeVisible();
  await expectAxeClean(desk, 'the label');
});

test('nothing went wrong on the way', () => expect(faults).toEqual([]));
