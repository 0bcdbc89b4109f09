import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, signedIn, test } from './fixtures.ts';
import { aFirm, get, type Job, jobFor, joined, post } from './parts/firm.ts';
import { imported, matched } from './parts/imports.ts';

test.use({ trace: 'off' });

const DESK = { viewport: { width: 1440, height: 900 } };
const WIDTHS = [320, 390, 720, 1920];
/** What is left of a desk's screen at twice the size of everything. */
const ZOOMED = { width: 720, height: 450 };
const NARROWEST = { width: 320, height: 640 };
/** Colours do not depend on the width; what moves and wraps does. */
const ONE_SCHEME = ['light'] as const;

/** Waits until nothing of the page is still on its way. */
async function settled(page: Page, path: string): Promise<void> {
  await page.goto(path);
  await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Opening' })).toHaveCount(0);
  await page.evaluate(() => document.fonts.ready);
}

/** One screen in light and dark, at a desk, zoomed to 200 % and at 320 px; then no sideways scroll from there to a wall. */
async function check(page: Page, path: string): Promise<void> {
  await test.step(path, async () => {
    await page.setViewportSize(DESK.viewport);
    await settled(page, path);
    await expectAxeClean(page, `${path} at a desk`);
    await page.setViewportSize(ZOOMED);
    await expectAxeClean(page, `${path} at 200 %`, ONE_SCHEME);
    await page.setViewportSize(NARROWEST);
    await expectAxeClean(page, `${path} at 320 px`, ONE_SCHEME);
    await noSideways(page);
  });
}
async function noSideways(page: Page): Promise<void> {
  for (const width of WIDTHS) {
    await page.setViewportSize({ width, height: 900 });
    await expectNoSideways(page);
  }
}

interface Ids {
  readonly items: readonly { readonly id?: string; readonly unitId?: string }[];
}
const first = async (context: BrowserContext, path: string): Promise<string> => {
  const [item] = (await get<Ids>(context, path)).items;
  return item?.unitId ?? item?.id ?? '';
};

test('the doors', async ({ page }) => {
  const faults = listenForFaults(page);
  const paths = ['/sign-in', '/sign-up', '/join/nobody', '/reset/nothing', '/forgot', '/forgot/sent'];
  for (const path of paths) await check(page, path);
  expect(faults).toEqual([]);
});

test('the office, with the demo in it', async ({ browser }) => {
  test.setTimeout(240_000);
  const page = await signedIn(browser, 'owner', DESK);
  const faults = listenForFaults(page);
  const context = page.context();
  const units = await get<Ids>(context, '/v1/units');
  const cylinder = await first(context, '/v1/cylinders');
  const paths = [
    '/returns',
    '/calls/new',
    '/units',
    '/cylinders',
    `/cylinders/${cylinder}`,
    '/cylinders/new',
    '/cylinders/delivery',
  ];
  const { accounts } = await get<{ accounts: { id: string; kind: string }[] }>(context, '/v1/books');
  const statement = `/books/${accounts.find(({ kind }) => kind === 'circuit')?.id}`;
  const costs = ['/repeats', '/gas-used', '/prices'];
  const manifests = ['/cylinders/manifests', '/cylinders/manifests/new'];
  for (const path of [...paths, ...manifests, '/books', '/books/period', statement, ...costs, '/attention', '/people'])
    await check(page, path);
  for (const id of new Set(units.items.map(({ unitId }) => unitId))) await check(page, `/units/${id}`);
  expect(faults).toEqual([]);
  await context.close();
});

test('the papers of the demo', async ({ browser }) => {
  const page = await signedIn(browser, 'owner', DESK);
  const faults = listenForFaults(page);
  for (const name of ['Leak-rate sheet', 'Service record']) {
    const path = await paperOf(page, name);
    await check(page, path);
    if (name === 'Service record') await check(page, path.replace('/record', ''));
  }
  expect(faults).toEqual([]);
  await page.context().close();
});

/** The address of a paper, found as a person finds it: from a unit, or from a visit that was made to it. */
async function paperOf(page: Page, name: string): Promise<string> {
  const units = await get<Ids>(page.context(), '/v1/units');
  for (const { unitId } of units.items) {
    await settled(page, `/units/${unitId}`);
    const sheet = page.getByRole('link', { name: /^Leak-rate sheet/ });
    if (name === 'Leak-rate sheet' && (await sheet.count()) > 0)
      return (await sheet.first().getAttribute('href')) ?? '';
    const done = page.getByRole('row').filter({ hasText: 'Done' }).getByRole('link');
    if (name === 'Service record' && (await done.count()) > 0)
      return `${await done.first().getAttribute('href')}/record`;
  }
  throw new Error(`the demo has no ${name}`);
}

test('an office in which nothing has happened yet', async ({ browser }) => {
  const owner = await aFirm(browser, 'Empty Quarter Cooling');
  const page = await owner.newPage();
  const faults = listenForFaults(page);
  const costs = ['/repeats', '/gas-used', '/prices'];
  const more = ['/cylinders/manifests', '/attention', '/people', '/import'];
  for (const path of ['/returns', '/units', '/cylinders', '/books', '/books/period', ...costs, ...more])
    await check(page, path);
  expect(faults).toEqual([]);
  await owner.close();
});

test('an import at each of its steps', async ({ browser }) => {
  test.setTimeout(240_000);
  const owner = await aFirm(browser, 'Sorrel Bank Refrigeration');
  const page = await owner.newPage();
  const faults = listenForFaults(page);
  const state = (id: string) =>
    expect.poll(async () => (await get<{ state: string }>(owner, `/v1/imports/${id}`)).state);
  const entered = await imported(owner, 'units.csv');
  await state(entered).toBe('read');
  await check(page, `/import/${entered}`);
  await matched(owner, entered);
  await state(entered).toBe('checked');
  await check(page, `/import/${entered}`);
  await post(owner, `/v1/imports/${entered}/run`, {});
  await state(entered).toBe('done');
  await check(page, `/import/${entered}`);
  for (const name of ['units-with-faults.csv', 'nearly-alike.csv']) {
    const id = await imported(owner, name);
    await state(id).toBe('read');
    await matched(owner, id);
    await state(id).toBe('checked');
    await check(page, `/import/${id}`);
  }
  const unreadable = await imported(owner, 'latin-1.csv', Buffer.from([0x4e, 0xe9, 0x0a, 0x41]));
  await state(unreadable).toBe('unreadable');
  await check(page, `/import/${unreadable}`);
  await check(page, '/import');
  expect(faults).toEqual([]);
  await owner.close();
});

const STEPS = [
  '',
  '/steps',
  '/safety',
  '/detector',
  '/readings',
  '/looks',
  '/leaks',
  '/consent',
  '/recovery',
  '/repair',
];
const MORE_STEPS = ['/test', '/vacuum', '/charge', '/inspection', '/closing', '/leave'];

test('every step of the phone', async ({ browser }) => {
  test.setTimeout(240_000);
  const owner = await aFirm(browser, 'Kestrel Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  const page = await technician.newPage();
  const faults = listenForFaults(page);
  await phoneCheck(page, '/field');
  const job: Job = await jobFor(owner, technician);
  await phoneCheck(page, '/field');
  for (const step of [...STEPS, ...MORE_STEPS]) await phoneCheck(page, `/field/visits/${job.visitId}${step}`);
  expect(faults).toEqual([]);
  await technician.close();
});

async function phoneCheck(page: Page, path: string): Promise<void> {
  await test.step(path, async () => {
    await page.setViewportSize(PHONE.viewport);
    await settled(page, path);
    await expectAxeClean(page, path);
    await page.setViewportSize(NARROWEST);
    await expectAxeClean(page, `${path} at 320 px`, ONE_SCHEME);
    await noSideways(page);
  });
}
