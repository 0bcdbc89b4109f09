import type { BrowserContext, Page } from '@playwright/test';
import { totp } from '../support/totp.ts';
import { expect, expectAxeClean, listenForFaults, test } from './fixtures.ts';
import { pressAt } from './parts/desk.ts';
import { aFirm, get, joined, newcomer, PASSWORD, post } from './parts/firm.ts';
import { check, look } from './parts/look.ts';

/** What a contractor sets for itself, and everybody for their own sign-in; an auditor reads and is offered no change. */
test.use({ trace: 'off' });
let owner: BrowserContext;
let auditor: BrowserContext;
let technician: BrowserContext;
let desk: Page;
let faults: string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Dunlin Refrigeration');
  auditor = await joined(browser, owner, { name: 'Ada Reed', role: 'auditor' });
  technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician' });
  desk = await owner.newPage();
  faults = listenForFaults(desk);
});
test.afterAll(async () => {
  for (const context of [technician, auditor, owner]) await context.close();
});

async function open(page: Page, path: string, heading: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1, name: heading })).toBeVisible();
  await page.evaluate(() => document.fonts.ready);
}
const dialog = () => desk.getByRole('dialog');
const press = (name: string): Promise<void> => pressAt(desk, desk.getByRole('button', { name, exact: true }));
const pressIn = (name: string): Promise<void> => pressAt(desk, dialog().getByRole('button', { name, exact: true }));

test('the person’s menu leads to the settings, and the units are saved and followed', async () => {
  await desk.goto('/returns');
  await press('Orla Finch');
  await desk.getByRole('link', { name: 'Settings' }).click();
  await expect(desk.getByRole('heading', { level: 1, name: 'Your sign-in' })).toBeVisible();
  await desk.getByRole('navigation', { name: 'Settings' }).getByRole('link', { name: 'Units and limits' }).click();
  await expect(desk.getByRole('heading', { level: 1, name: 'Units and limits' })).toBeVisible();
  await check(desk, 'units');
  await expect(desk.getByLabel('Shop limit', { exact: true })).toHaveValue('10');
  await desk.getByLabel('Mass', { exact: true }).selectOption('kg');
  await desk.getByLabel('Shop limit', { exact: true }).fill('900');
  await press('Save');
  await expect(desk.locator('main')).toContainText('give an excess of 5 to 300 kPa');
  await desk.getByLabel('Shop limit', { exact: true }).fill('8');
  await press('Save');
  await expect(desk.getByRole('status').getByText('The units and limits are saved.')).toBeVisible();
  await desk.reload();
  await expect(desk.getByLabel('Mass', { exact: true })).toHaveValue('kg');
  await expect(desk.getByLabel('Shop limit', { exact: true })).toHaveValue('8');
  await desk.goto('/cylinders/new');
  await expect(desk.getByLabel('Unit of Tare')).toHaveValue('kg');
});

test('a location is registered and changed', async () => {
  await open(desk, '/settings/locations', 'Locations');
  await check(desk, 'locations-empty');
  await press('Register a location');
  await look(desk, 'location-dialog');
  await desk.getByLabel('Name').fill('Main store');
  await pressIn('Save');
  await expect(dialog()).toContainText('Elevation: give metres above sea level.');
  await desk.getByLabel('Elevation', { exact: true }).fill('1600');
  await desk.getByLabel('Keeper').selectOption({ label: 'Rosa Quill' });
  await expectAxeClean(desk, 'the form of a location');
  await pressIn('Save');
  await expect(dialog()).toHaveCount(0);
  await expect(desk.getByRole('row', { name: /Main store/ })).toContainText('Rosa Quill');
  await press('Change Main store');
  await desk.getByLabel('Keeper').selectOption({ label: 'Nobody' });
  await pressIn('Save');
  await expect(desk.getByRole('row', { name: /Main store/ })).toContainText('nobody');
  await check(desk, 'locations');
});

test('an instrument is registered, calibrated and retired', async () => {
  await open(desk, '/settings/instruments', 'Instruments');
  await press('Register an instrument');
  await desk.getByLabel('Tag').fill('D-2');
  await desk.getByLabel('Smallest leak it senses').fill('3');
  await look(desk, 'instrument-dialog');
  await pressIn('Save');
  const row = desk.getByRole('row', { name: /D-2/ });
  await expect(row).toContainText('from 3 g/yr');
  const choose = async (item: string): Promise<void> => {
    await desk.getByRole('button', { name: 'Change D-2' }).click();
    await desk.getByRole('menuitem', { name: item }).click();
    await expect(dialog()).toBeVisible();
  };
  await choose('Enter a calibration');
  await desk.getByLabel('Calibrated by').fill('Front Range Metrology');
  await desk.getByLabel('Result').selectOption('adjusted');
  await desk.getByLabel('Next one').fill('2040-01-15');
  await expectAxeClean(desk, 'the form of a calibration');
  await pressIn('Save');
  await expect(row).toContainText('adjusted');
  await expect(row).toContainText('2040');
  await check(desk, 'instruments');
  await choose('Retire');
  await desk.getByLabel('Why').fill('Pump is worn');
  await pressIn('Save');
  await expect(desk.getByRole('table', { name: 'Retired instruments' })).toContainText('D-2');
  await look(desk, 'instruments-retired');
});

test('a key is made, shown once, opens, and is out when it is revoked', async ({ playwright, baseURL }) => {
  await open(desk, '/settings/keys', 'Keys for programs');
  await check(desk, 'keys-empty');
  await press('Make a key');
  await pressIn('Make the key');
  await expect(dialog()).toContainText('give text of 1 to 80 characters');
  await desk.getByLabel('Name').fill('Year’s report');
  await expectAxeClean(desk, 'the form of a key');
  await look(desk, 'key-dialog');
  await pressIn('Make the key');
  const secret = (await dialog().getByLabel('The key').last().textContent()) ?? '';
  expect(secret).toMatch(/^ullage_/);
  await look(desk, 'key-once');
  await pressIn('I have kept it');
  const program = await playwright.request.newContext({ extraHTTPHeaders: { authorization: `Bearer ${secret}` } });
  expect((await program.get(`${baseURL}/v1/books`)).status()).toBe(200);
  await desk.reload();
  await expect(desk.locator('main')).not.toContainText(secret);
  await expect(desk.getByRole('row', { name: /Year’s report/ })).toContainText('In use');
  await check(desk, 'keys');
  await press('Revoke Year’s report');
  await press('Revoke for good');
  await expect(desk.getByRole('row', { name: /Year’s report/ })).toContainText('Revoked');
  expect((await program.get(`${baseURL}/v1/books`)).status()).toBe(401);
  await program.dispose();
});

test('a webhook is added, its secret shown once, tried, stopped and removed', async () => {
  await open(desk, '/settings/webhooks', 'Webhooks');
  await press('Add a webhook');
  await desk.getByLabel('Address').fill('http://hooks.example/told');
  await pressIn('Add it');
  await expect(dialog()).toContainText('give one that begins with https://');
  // Nobody has this name (RFC 2606): nothing leaves this machine.
  await desk.getByLabel('Address').fill('https://hooks.invalid/told');
  await expectAxeClean(desk, 'the form of a webhook');
  await pressIn('Add it');
  await expect(dialog().getByLabel('The signing secret').last()).toHaveText(/^whsec_/);
  await look(desk, 'webhook-once');
  await pressIn('I have kept it');
  await press('Send a test');
  await expect(desk.getByRole('row', { name: /Test/ })).toBeVisible();
  await expect(async () => {
    await desk.reload();
    await expect(desk.getByRole('row', { name: /Test/ })).toContainText('Given up', { timeout: 500 });
  }).toPass({ timeout: 20_000 });
  await check(desk, 'webhooks');
  await press('Stop');
  await expect(desk.locator('main')).toContainText('Stopped');
  await press('Remove');
  await press('Remove for good');
  await expect(desk.locator('main')).toContainText('No program is told of changes.');
  await check(desk, 'webhooks-empty');
});

test('the second factor is turned on, asked for at the door, and another device is ended', async ({ browser }) => {
  await open(desk, '/settings/sign-in', 'Your sign-in');
  await check(desk, 'sign-in');
  await press('Turn it on');
  await dialog().getByLabel('Password', { exact: true }).fill('not the one at all');
  await pressIn('Go on');
  await expect(dialog()).toContainText('this is not the one');
  await dialog().getByLabel('Password', { exact: true }).fill(PASSWORD);
  await pressIn('Go on');
  await expect(dialog().getByRole('img')).toBeVisible();
  const secret = ((await dialog().getByLabel('The key').textContent()) ?? '').replaceAll(' ', '');
  await expectAxeClean(desk, 'the code to scan');
  await look(desk, 'factor-scan');
  // What was typed a step before was a password.
  await expect(dialog().getByLabel('Code', { exact: true })).toHaveValue('');
  await dialog().getByLabel('Code', { exact: true }).fill('000000');
  await pressIn('Turn it on');
  await expect(dialog()).toContainText('this is not right');
  await dialog().getByLabel('Code', { exact: true }).fill(totp(secret));
  await pressIn('Turn it on');
  await expect(dialog().getByRole('listitem')).toHaveCount(10);
  const recovery = (await dialog().getByRole('listitem').first().textContent()) ?? '';
  await expectAxeClean(desk, 'the recovery codes');
  await look(desk, 'factor-codes');
  await pressIn('I have kept them');
  await expect(desk.getByText('On: a code is asked for at every sign-in.')).toBeVisible();

  const { user } = await get<{ user: { email: string } }>(owner, '/v1/auth/get-session');
  const elsewhere = await browser.newContext();
  const door = await elsewhere.newPage();
  const enter = async (code: string): Promise<void> => {
    await door.goto('/sign-in');
    await door.getByLabel('E-mail').fill(user.email);
    await door.getByLabel('Password').fill(PASSWORD);
    await door.getByRole('button', { name: 'Sign in' }).click();
    await door.getByLabel('Code').fill(code);
    await door.getByRole('button', { name: 'Go on' }).click();
  };
  await enter('000000');
  await expect(door.locator('main')).toContainText('this is not right');
  await check(door, 'door-code');
  await door.getByLabel('Code').fill(recovery);
  await door.getByRole('button', { name: 'Go on' }).click();
  await expect(door).toHaveURL(/\/returns$/);

  await desk.reload();
  await expect(desk.getByRole('table', { name: 'Where you are signed in' }).getByRole('row')).toHaveCount(3);
  await check(desk, 'sign-in-on');
  await press('End all others');
  await expect(desk.getByRole('table', { name: 'Where you are signed in' }).getByRole('row')).toHaveCount(2);
  await door.goto('/units');
  await expect(door).toHaveURL(/\/sign-in/);
  await enter(totp(secret));
  await expect(door).toHaveURL(/\/returns$/);
  await elsewhere.close();
  await press('Turn it off');
  await dialog().getByLabel('Password', { exact: true }).fill(PASSWORD);
  await pressIn('Turn it off');
  await expect(desk.getByRole('button', { name: 'Turn it on' })).toBeVisible();
});

test('a password is changed', async ({ browser }) => {
  const context = await newcomer(browser, { name: 'Kim Vale' });
  await post(context, '/v1/auth/organization/create', { name: 'Kim’s', metadata: { timeZone: 'America/Denver' } });
  const page = await context.newPage();
  await open(page, '/settings/sign-in', 'Your sign-in');
  await page.getByLabel('Password now').fill(PASSWORD);
  await page.getByLabel('New password').fill('short');
  await page.getByRole('button', { name: 'Change the password' }).click();
  await expect(page.locator('main')).toContainText('give at least 10 characters');
  await page.getByLabel('New password').fill('another long sentence');
  await page.getByRole('button', { name: 'Change the password' }).click();
  await expect(page.getByRole('status').getByText('The new password holds.')).toBeVisible();
  await context.close();
});

test('whoever lost the phone is signed out everywhere by the owner', async () => {
  await open(desk, '/settings/people', 'Sign-ins of people');
  await check(desk, 'people');
  await press('Sign out everywhere: Rosa Quill');
  await look(desk, 'people-sure');
  await pressIn('Sign out everywhere');
  await expect(desk.getByRole('row', { name: /Rosa Quill/ })).toContainText('on 0 devices');
  expect((await technician.request.get('/v1/books')).status()).toBe(401);
});

test('the auditor reads all of it and is offered no change', async () => {
  const page = await auditor.newPage();
  await open(page, '/settings/units', 'Units and limits');
  await expect(page.locator('main')).toContainText('8 psi');
  await check(page, 'auditor-units');
  for (const [path, name] of [
    ['locations', 'Locations'],
    ['instruments', 'Instruments'],
    ['keys', 'Keys for programs'],
    ['webhooks', 'Webhooks'],
  ] as const) {
    await open(page, `/settings/${path}`, name);
    await expect(page.locator('main').getByRole('button')).toHaveCount(0);
  }
  await expect(page.getByRole('link', { name: 'Sign-ins of people' })).toHaveCount(0);
});

test('nothing but the refusals that were meant went wrong', () =>
  expect(faults.filter((fault) => !/status of 40[01]/.test(fault))).toEqual([]));
