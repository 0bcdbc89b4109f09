import type { BrowserContext, Locator, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { aFirm, command, type Job, jobFor, joined, newId } from './parts/firm.ts';
import { choose, pick, save } from './parts/phone.ts';

/** On the phone: where to look next follows what was looked at, and what the detector is worth. */
let office: BrowserContext;
let phone: BrowserContext;
let job: Job;
let page: Page;
let faults: string[];
test.describe.configure({ mode: 'serial' });
test.beforeAll(async ({ browser }) => {
  office = await aFirm(browser, 'Heron Reach Cooling');
  phone = await joined(browser, office, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(office, phone);
  const detector = { instrumentId: newId(), kind: 'detector', tag: 'D-14', senseGramsPerYear: 5 };
  await command(phone, 'register-instrument', { ...detector, carrierId: job.personId });
  page = await phone.newPage();
  faults = listenForFaults(page);
});
test.afterAll(async () => {
  await phone.close();
  await office.close();
});

const open = (step: string) => page.goto(`/field/visits/${job.visitId}/${step}`);
const card = (): Locator => page.getByRole('region', { name: 'Where to look next' });
/** The words of the look that comes first. */
const first = async (): Promise<string> => (await card().locator('[aria-live] p').first().textContent()) ?? '';
const chances = async (): Promise<string> => (await card().textContent()) ?? '';

async function recordClear(): Promise<void> {
  const recorded = page.getByRole('list', { name: 'Recorded' }).getByRole('listitem');
  const before = await recorded.count();
  await card().getByRole('button', { name: 'Fill in this look' }).click();
  await expect(page.getByLabel(/^Method/)).not.toHaveValue('');
  await page.getByRole('button', { name: 'Clear', exact: true }).click();
  await page.getByRole('button', { name: 'Save this look' }).click();
  await expect(recorded).toHaveCount(before + 1);
}

test('a suggestion with its minutes, a reason in one sentence, and the next two', async () => {
  await open('looks');
  await expect(card()).toBeVisible();
  await expect(card()).toContainText(/\d+ min.+ (under )?\d+ % likely to show it\./);
  await expect(card().getByRole('listitem').filter({ hasText: /min$/ })).toHaveCount(2);
  await expectAxeClean(page, 'where to look next');
  await expectNoSideways(page);
});

test('one tap fills the look; when it is clear another one is told', async () => {
  const before = await first();
  await recordClear();
  await expect.poll(first).not.toBe(before);
});

test('the detector fails its check: its clear looks no longer count, and it is not suggested again', async () => {
  // Until a look with the detector is among those made.
  for (let looks = 0; looks < 8; looks += 1) {
    const how = (await card().locator('[aria-live] p').nth(1).textContent()) ?? '';
    await recordClear();
    await page.reload();
    await expect(card()).toBeVisible();
    if (how.startsWith('Electronic')) break;
  }
  const trusting = { first: await first(), chances: await chances() };
  await open('detector');
  await pick(page, 'Tool', 'D-14, detector, 5 g/yr');
  await choose(page, 'Checked against', 'Reference');
  await choose(page, 'Result', 'Fail');
  await save(page, 'Save the check', 'D-14');
  await open('looks');
  await expect(card()).toContainText('D-14 failed its check: take another detector, or bubbles.');
  await expect(card()).not.toContainText('Electronic detector');
  expect(await chances()).not.toBe(trusting.chances);
  await expectAxeClean(page, 'where to look next, after a failed check');
  expect(faults).toEqual([]);
});
