import { readFile } from 'node:fs/promises';
import type { BrowserContext } from '@playwright/test';
import { strFromU8, unzipSync } from 'fflate';
import { expect, listenForFaults, signedIn, test } from './fixtures.ts';
import { pressAt } from './parts/desk.ts';
import { aFirm, get } from './parts/firm.ts';
import { check, look } from './parts/look.ts';

/** An owner takes everything along and comes back with it in a firm that is founded for it. */
test.use({ trace: 'off' });
const LEAVING = '/settings/leaving';
/** The worker looks every few seconds. */
const WORKED = { timeout: 60_000 };

const books = async (context: BrowserContext): Promise<unknown> =>
  (await get<{ totals: unknown }>(context, '/v1/books')).totals;

test('settings, the file, its download, a new firm, the same books', async ({ browser }, testInfo) => {
  test.setTimeout(240_000);
  const page = await signedIn(browser, 'owner', { viewport: { width: 1440, height: 900 } });
  const faults = listenForFaults(page);
  await page.goto(LEAVING);
  await expect(page.getByRole('heading', { level: 1, name: 'Leaving' })).toBeVisible();
  await check(page, 'leaving-empty');
  await pressAt(page, page.getByRole('button', { name: 'Make the file' }));
  const row = page.getByRole('row').nth(1);
  await expect(row.getByText('Ready')).toBeVisible(WORKED);
  await check(page, 'leaving-ready');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    row.getByRole('link', { name: /^Download the file of/ }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/^ullage-\d{4}-\d\d-\d\d\.zip$/);
  const path = testInfo.outputPath('everything.zip');
  await download.saveAs(path);
  const files = unzipSync(await readFile(path));
  expect(strFromU8(files['tables/cylinders.csv']!)).toContain('C-4');
  await expect(page.getByText('There is work here already.', { exact: false })).toBeVisible();

  const other = await aFirm(browser, 'Heron Vale Refrigeration');
  const desk = await other.newPage();
  const others = listenForFaults(desk);
  await desk.goto(LEAVING);
  const choose = desk.getByLabel('The zip as it was downloaded');
  // What is no such file is told by name, and another may be tried.
  await choose.setInputFiles({ name: 'letter.zip', mimeType: 'application/zip', buffer: Buffer.from('Dear all') });
  await pressAt(desk, desk.getByRole('button', { name: 'Take it over' }));
  await expect(desk.getByText('Not taken over')).toBeVisible(WORKED);
  await expect(desk.getByRole('cell', { name: /no whole zip/ })).toBeVisible();
  await check(desk, 'leaving-refused');
  await choose.setInputFiles(path);
  await pressAt(desk, desk.getByRole('button', { name: 'Take it over' }));
  await expect(desk.getByText('Nobody can write here until it has ended.', { exact: false })).toBeVisible(WORKED);
  await look(desk, 'leaving-working');
  await expect(desk.getByText('Equal books')).toBeVisible(WORKED);
  await check(desk, 'leaving-equal');
  expect(await books(other)).toEqual(await books(page.context()));
  await desk.goto('/returns');
  await expect(desk.getByText('0305-A').first()).toBeVisible();
  expect([...faults, ...others]).toEqual([]);
  await other.close();
});

test('an auditor reads that a file was made, and is offered neither to make nor to have one', async ({ browser }) => {
  const page = await signedIn(browser, 'auditor', { viewport: { width: 1440, height: 900 } });
  await page.goto(LEAVING);
  await expect(page.getByRole('row').nth(1).getByText('Ready')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Make the file' })).toHaveCount(0);
  await expect(page.getByRole('link', { name: /^Download/ })).toHaveCount(0);
  await check(page, 'leaving-auditor');
});
