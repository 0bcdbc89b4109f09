import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { dayAt } from './parts/days.ts';
import { aFirm, jobFor, joined, workDone } from './parts/firm.ts';

let page: Page;
let zone: string;
test.beforeAll(async ({ browser }) => {
  const owner = await aFirm(browser, 'Marl Lane Refrigeration');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  const job = await jobFor(owner, technician);
  await workDone(technician, job);
  ({ zone } = job);
  page = await owner.newPage();
});
test.afterAll(() => page.context().close());

test('the books of any days, each figure leading to what is behind it, as a file too', async () => {
  await page.goto('/books');
  await page.getByRole('link', { name: 'Books of a period' }).click();
  await expect(page.getByRole('heading', { name: 'Books of a period' })).toBeVisible();
  // The story began 75 days ago, which may be another year.
  await page.getByLabel('First day').fill(dayAt(zone, -100));
  await page.getByLabel('Last day').fill(dayAt(zone, 1));
  await page.getByRole('button', { name: 'Show' }).click();
  await expect(page).toHaveURL(/from=\d{4}-\d{2}-\d{2}&to=/);
  const row = page.getByRole('table', { name: /by gas$/ }).getByRole('row', { name: /^R-448A/ });
  // 160 - 55 lb are 47,627 g, 18 lb 8,165 g, each weight rounded half up; 18 lb before and 18 lb now have leaked.
  for (const figure of ['47,627 g', '8,165 g', '16,330 g']) await expect(row).toContainText(figure);

  const download = page.waitForEvent('download');
  await page.getByRole('link', { name: 'CSV file' }).click();
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^books-.*\.csv$/);
  expect(await readFile(await file.path(), 'utf8')).toContain('R-448A,0,0,99790,47627,8165,8165,');

  await row.getByRole('link', { name: /^8,165 g/ }).click();
  const accounts = page.getByRole('table', { name: /^What cylinders and circuits held/ });
  await expect(accounts.getByRole('row', { name: /^0311-A/ })).toContainText('99,790 g');
  await row.getByRole('link', { name: /^16,330 g/ }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Atmosphere');
});

test('a year nobody worked in says so', async () => {
  await page.goto('/books/period?from=2019-01-01&to=2019-12-31');
  await expect(page.getByText('No gas was in the books by then.')).toBeVisible();
});
