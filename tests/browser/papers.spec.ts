import type { Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { aFirm, get, type Job, jobFor, joined, workDone } from './parts/firm.ts';

/** Letter paper at 96 dots to the inch, as a browser lays it out. */
const LETTER = { width: 816, height: 1056 };

let page: Page;
let job: Job;
test.beforeAll(async ({ browser }) => {
  const owner = await aFirm(browser, 'Larch Hill Refrigeration');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  page = await owner.newPage();
});
test.afterAll(() => page.context().close());

const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
const boxOf = (pdf: Buffer): string | undefined =>
  /\/MediaBox\s*\[([^\]]*)\]/.exec(pdf.toString('latin1'))?.[1]?.trim();

/** On paper: the sheet alone, in ink, on one Letter page. */
async function expectOnePaper(): Promise<void> {
  await page.setViewportSize(LETTER);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await expect(page.getByRole('article')).toBeVisible();
  await expect(page.getByRole('banner')).toBeHidden();
  await expect(page.getByRole('navigation')).toBeHidden();
  await expect(page.getByRole('search')).toBeHidden();
  await expect(page.getByRole('button')).toHaveCount(0);
  const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  expect(['rgb(255, 255, 255)', 'rgba(0, 0, 0, 0)'], 'dark on a screen is white on paper').toContain(paper);
  const pdf = await page.pdf({ preferCSSPageSize: true, format: 'Letter' });
  expect(boxOf(pdf)).toBe('0 0 612 792');
  expect(pagesOf(pdf)).toBe(1);
  await page.emulateMedia({ media: 'screen' });
}

test('the leak-rate sheet prints on one Letter page, with its sum', async () => {
  await page.goto(`/units/${job.unitId}`);
  await page.getByRole('link', { name: /^Leak-rate sheet/ }).click();
  await expect(page.getByRole('article')).toContainText('39.82 %');
  await expect(page.getByRole('article')).toContainText('220 lb');
  await expect(page.getByRole('article')).toContainText('40 CFR 84.106');
  await expectOnePaper();
});

test('the service record has items (i) to (vi) and the tests, and neither rate nor full charge', async () => {
  await page.goto(`/visits/${job.visitId}`);
  await page.getByRole('link', { name: 'Service record' }).click();
  const record = page.getByRole('article');
  for (const item of ['(i)', '(ii)', '(iii), (iv)', '(v)', '(vi)', 'Verification tests', 'Leak inspections'])
    await expect(record.getByRole('heading', { name: item, exact: false }).first()).toBeVisible();
  await expect(record).toContainText('Rosa Quill');
  await expect(record).toContainText('NG-77');
  const { calculationId } = (
    await get<{ outcome: { calculationId: string } }>(page.context(), `/v1/visits/${job.visitId}`)
  ).outcome;
  expect(calculationId, 'there is a rate to leave out').not.toBe('');
  await expect(record).not.toContainText(/39\.82|220 lb|\d %/);
  await expectOnePaper();
});
