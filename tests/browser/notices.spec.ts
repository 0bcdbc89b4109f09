import type { BrowserContext, Page } from '@playwright/test';
import type { MeView, ReturnsView, VisitView } from '@ullage/contracts';
import { expect, expectAxeClean, PHONE, test } from './fixtures.ts';
import { dayAt } from './parts/days.ts';
import { aFirm, command, get, jobFor, joined, workDone, type Job } from './parts/firm.ts';
import { remindOf } from './parts/reminder.ts';

/** Two tabs of a dispatcher and one of another stand open; none is loaded again. */
test.describe.configure({ mode: 'serial' });
let owner: BrowserContext;
let technician: BrowserContext;
let dispatcher: BrowserContext;
let colleague: BrowserContext;
let mine: Page;
let myOther: Page;
let theirs: Page;
let job: Job;
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Tern Quay Cooling');
  technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician' });
  dispatcher = await joined(browser, owner, { name: 'Ines Varga', role: 'dispatcher' });
  colleague = await joined(browser, owner, { name: 'Bram Ferris', role: 'dispatcher' });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  mine = await dispatcher.newPage();
  myOther = await dispatcher.newPage();
  theirs = await colleague.newPage();
  for (const page of [mine, myOther, theirs]) {
    await page.goto('/units');
    await expect(page.getByRole('button', { name: 'no notices' })).toBeVisible();
    await page.evaluate(() => Reflect.set(window, 'neverReloaded', true));
  }
});
test.afterAll(async () => {
  for (const page of [mine, myOther, theirs])
    expect(await page.evaluate(() => Reflect.get(window, 'neverReloaded'))).toBe(true);
  for (const context of [owner, technician, dispatcher, colleague]) await context.close();
});
const card = (page: Page) => page.getByRole('group', { name: 'Notices' });

test('a reminder that comes is told on every open screen of the dispatchers, by itself', async () => {
  const { tenant } = await get<MeView>(owner, '/v1/me');
  await remindOf(tenant.id, job.circuitId);
  for (const page of [mine, myOther, theirs]) {
    await expect(page.getByRole('status').getByText(/^Reminder: 0311-A: .*, due /)).toBeVisible({ timeout: 30_000 });
    await expect(page.getByRole('button', { name: 'one notice' })).toBeVisible();
  }
});

test('it is ticked off by keyboard alone, goes from the other tab too, and stays with the colleague', async () => {
  await mine.getByRole('button', { name: 'one notice' }).focus();
  await mine.keyboard.press('Enter');
  const tick = card(mine).getByRole('button', { name: /^Mark as read: 0311-A: / });
  await expect(tick).toBeVisible();
  await expectAxeClean(mine, 'the notices');
  await mine.keyboard.press('Tab');
  await expect(card(mine).getByRole('link', { name: /^0311-A/ })).toBeFocused();
  await mine.keyboard.press('Tab');
  await expect(tick).toBeFocused();
  await mine.keyboard.press('Enter');
  await expect(card(mine), 'the keyboard stays where it was').toBeFocused();
  await expect(tick).toHaveCount(0);
  await expect(card(mine).getByRole('listitem')).toContainText('; read');
  await expect(myOther.getByRole('button', { name: 'no notices' })).toBeVisible();
  await expect(theirs.getByRole('button', { name: 'one notice' })).toBeVisible();
  await mine.keyboard.press('Escape');
  await expect(card(mine)).toBeHidden();
});

test('once its duty is discharged it stands under earlier, for whoever read it and whoever did not', async () => {
  await theirs.getByRole('button', { name: 'one notice' }).click();
  await expect(card(theirs).getByRole('button', { name: /^Mark as read/ })).toBeVisible();
  await followUpPassed();
  await expect(card(theirs).getByText('No duty needs a reminder now.')).toBeVisible();
  await card(theirs).getByText('Earlier: one notice').click();
  await expect(card(theirs).getByRole('listitem')).toContainText('; done');
  await theirs.setViewportSize(PHONE.viewport);
  await expectAxeClean(theirs, 'the notices at a phone’s width');
  await mine.getByRole('button', { name: 'no notices' }).click();
  await mine.getByText('Earlier: one notice').click();
  await card(mine)
    .getByRole('link', { name: /^0311-A/ })
    .click();
  await expect(mine).toHaveURL(new RegExp(`/units/${job.unitId}`));
  await expect(card(mine)).toBeHidden();
});

async function followUpPassed(): Promise<void> {
  const [item] = (await get<ReturnsView>(owner, '/v1/returns')).items;
  const { id: visitId, version } = item!.visit;
  const moment = { day: dayAt(job.zone, 1), time: '10:00', minutes: 45 };
  await command(owner, 'place-visit', { visitId, version, personId: job.personId, ...moment });
  const { leakPoints } = await get<VisitView>(owner, `/v1/visits/${visitId}`);
  await command(technician, 'arrive', { visitId });
  await command(technician, 'record-verification', {
    ...{ visitId, circuitId: job.circuitId, leakPointIds: leakPoints.map(({ id }) => id) },
    ...{ stage: 'follow-up', method: 'electronic', gas: 'refrigerant', result: 'pass' },
  });
  await command(technician, 'finish-visit', { visitId });
}
