import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { pressAt } from './parts/desk.ts';
import { aFirm, jobFor, joined, type Job } from './parts/firm.ts';

/** What was put down at a call is put right on the unit's page, by keyboard; whoever may not does not see how. */
let owner: BrowserContext;
let technician: BrowserContext;
let job: Job;
let desk: Page;
let faults: string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Lapwing Cold Rooms');
  technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  desk = await owner.newPage();
  faults = listenForFaults(desk);
  await desk.goto(`/units/${job.unitId}`);
});
test.afterAll(async () => {
  await technician.close();
  await owner.close();
});

async function choose(name: string): Promise<void> {
  await pressAt(desk, desk.getByRole('button', { name: 'Put right' }));
  const item = desk.getByRole('menuitem', { name });
  for (let i = 0; i < 3 && !(await item.evaluate((one) => one === document.activeElement)); i++)
    await desk.keyboard.press('ArrowDown');
  await expect(item).toBeFocused();
  await desk.keyboard.press('Enter');
  await expect(desk.getByRole('dialog')).toBeVisible();
}
const save = (): Promise<void> => pressAt(desk, desk.getByRole('dialog').getByRole('button', { name: 'Save' }));

test('the menu and every form are clean for axe, in light and dark, wide and narrow', async () => {
  await pressAt(desk, desk.getByRole('button', { name: 'Put right' }));
  await expect(desk.getByRole('menuitem')).toHaveCount(3);
  await expectAxeClean(desk, 'the menu');
  await desk.keyboard.press('Escape');
  for (const name of ['The site', 'The circuit', 'The full charge']) {
    await choose(name);
    await expectAxeClean(desk, name);
    await desk.setViewportSize({ width: 390, height: 844 });
    await expectNoSideways(desk);
    await desk.setViewportSize({ width: 1440, height: 900 });
    await desk.keyboard.press('Escape');
    await expect(desk.getByRole('dialog')).toHaveCount(0);
  }
});

test('a height, a contact and a place on the map', async () => {
  await choose('The site');
  await desk.getByLabel('Elevation', { exact: true }).fill('1700');
  await desk.getByLabel('Latitude').fill('39.7');
  await save();
  // Half a place is none: told at the field, and nothing typed is lost.
  await expect(desk.getByRole('dialog')).toContainText('Longitude: give decimal degrees from -180 to 180.');
  await expect(desk.getByLabel('Elevation', { exact: true })).toHaveValue('1700');
  await desk.getByLabel('Longitude').fill('-104.9');
  await desk.getByLabel('Contact').fill('Ivo Lark, 555 0117');
  await save();
  await expect(desk.getByRole('dialog')).toHaveCount(0);
  await expect(desk.locator('main header')).toContainText('1,700 m');
  await expect(desk.locator('main header')).toContainText('Ivo Lark, 555 0117');
});

test('a full charge by its range: the midpoint counts, and the rate follows', async () => {
  await choose('The full charge');
  await desk.getByLabel('Figure from').selectOption('range');
  await desk.getByLabel('Full charge', { exact: true }).fill('200');
  await save();
  await expect(desk.getByRole('dialog')).toContainText('a range needs both ends');
  await desk.getByLabel('Full charge', { exact: true }).fill('100 to 120');
  await save();
  await expect(desk.getByRole('dialog')).toHaveCount(0);
  await expect(desk.locator('main header')).toContainText('full charge 110 lb, midpoint of an established range');
  await expect(desk.locator('main header')).toContainText('100 to 120 lb');
});

test('a circuit said to be outside the rule has no rulebook, with the reason kept', async () => {
  await choose('The circuit');
  await desk.getByLabel('Subsector').selectOption('residential-light-commercial-ac');
  await save();
  await expect(desk.getByRole('dialog')).toContainText('Why:');
  await desk.getByLabel('Why').fill('It cools the flat above the shop.');
  await save();
  await expect(desk.getByRole('dialog')).toHaveCount(0);
  await expect(desk.locator('main')).toContainText('no rulebook covers it');
  await expect(desk.locator('main')).toContainText('It cools the flat above the shop.');
});

test('a technician reads the page and is offered no change', async () => {
  const page = await technician.newPage();
  await page.goto(`/units/${job.unitId}`);
  await expect(page.getByRole('heading', { name: /0311-A/ })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Put right' })).toHaveCount(0);
});

test('nothing but the three refusals went wrong on the way', () =>
  expect(faults.map((fault) => /status of 400/.test(fault) || fault)).toEqual([true, true, true]));
