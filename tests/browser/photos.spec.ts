import { randomBytes } from 'node:crypto';
import type { BrowserContext, Page } from '@playwright/test';
import sharp from 'sharp';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { aFirm, type Job, jobFor, joined } from './parts/firm.ts';
import { pick } from './parts/phone.ts';

let office: BrowserContext;
let phone: BrowserContext;
let job: Job;
test.beforeAll(async ({ browser }) => {
  office = await aFirm(browser, 'Lantern Cooling');
  phone = await joined(browser, office, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(office, phone);
});
test.afterAll(async () => {
  await phone.close();
  await office.close();
});

/** Noise, so that it is sent in several parts; larger than what is sent, so that it is made smaller on the phone. */
async function picture(): Promise<{ name: string; mimeType: string; buffer: Buffer }> {
  const [width, height] = [2600, 1950];
  const raw = { width, height, channels: 3 } as const;
  const buffer = await sharp(randomBytes(width * height * 3), { raw })
    .jpeg({ quality: 60 })
    .toBuffer();
  return { name: 'flare-nut.jpg', mimeType: 'image/jpeg', buffer };
}

async function open(step: string): Promise<Page> {
  const page = await phone.newPage();
  await page.goto(`/field/visits/${job.visitId}/${step}`);
  await page.getByText(/^All steps/).waitFor();
  return page;
}
const isShown = (page: Page, name: string): Promise<boolean> =>
  page.getByRole('img', { name }).evaluate((image) => (image as HTMLImageElement).naturalWidth > 0);

test('a photo taken without a signal is kept, waits, goes out by itself, and is on the office’s page', async () => {
  const desk = await office.newPage();
  const faults = listenForFaults(desk);
  await desk.goto(`/visits/${job.visitId}`);
  let isAway = true;
  const parts: string[] = [];
  await phone.route('**/v1/photos/**', (route) => {
    if (isAway) return route.abort();
    if (route.request().method() === 'PUT') parts.push(route.request().url());
    return route.continue();
  });

  const before = await open('looks');
  const lost = before.waitForEvent('requestfailed');
  await before.getByLabel('Take a photo').setInputFiles(await picture());
  await expect(before.getByRole('img', { name: 'Photo 1' })).toBeVisible();
  await lost; // a request in flight as its page closes would get through
  await before.close();
  const page = await open('looks');
  await expect(page.getByText('on this phone', { exact: true })).toBeVisible();
  expect(await isShown(page, 'Photo 1')).toBe(true);
  await expect(page.getByText('1 photo safe on this phone')).toBeVisible();
  await expectAxeClean(page, 'a look with a photo');
  await expectNoSideways(page);

  await page.locator('summary', { hasText: /^Lines/ }).click();
  await page.getByRole('checkbox', { name: 'Flare nut' }).check();
  await pick(page, 'Method', 'Soap bubbles');
  await page.getByRole('button', { name: 'Found', exact: true }).click();
  await page.getByRole('button', { name: 'Save this look' }).click();
  await expect(page.getByRole('list', { name: 'Recorded' })).toContainText('Look');
  // The office hears of the look at once, and that its photo is still on a phone.
  await expect(desk.getByText('still on a phone')).toBeVisible();
  await expectAxeClean(desk, 'a visit whose photo is awaited');

  isAway = false;
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect(desk.getByRole('img', { name: 'Photo 1 of look' })).toBeVisible();
  await expect(desk.getByText('still on a phone')).toHaveCount(0);
  await expect.poll(() => isShown(desk, 'Photo 1 of look')).toBe(true);
  expect(parts.length).toBeGreaterThan(3);
  await expect(page.getByText('on this phone', { exact: true })).toHaveCount(0);
  await expect(page.getByText('nothing left on this phone')).toBeVisible();
  expect(faults).toEqual([]);
});

test('the nameplate is photographed before the unit is opened', async () => {
  const page = await open('start');
  await page.getByRole('button', { name: 'Photograph the nameplate' }).click();
  await page.getByLabel('Take a photo').setInputFiles(await picture());
  await expect(page.getByRole('img', { name: 'Photo 1' })).toBeVisible();
  await page.getByRole('button', { name: 'Save the nameplate' }).click();
  await expect(page.getByRole('list', { name: 'Recorded' })).toContainText('Nameplate');
});

test('what is no picture is refused on the phone, in words', async () => {
  const page = await open('leaks');
  const text = { name: 'note.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') };
  await page.getByLabel('Take a photo').setInputFiles(text);
  await expect(page.getByText('That is no picture this phone can read')).toBeVisible();
  await expect(page.getByRole('img', { name: 'Photo 1' })).toHaveCount(0);
});
