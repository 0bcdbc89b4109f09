import type { BrowserContext, Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { aFirm, command, type Job, jobFor, joined, lb, newId, workDone } from './parts/firm.ts';

/** What a screen reader is given at each main task. Days, clocks and names that change by the day are left open. */
let desk: Page;
let phone: Page;
let job: Job;
test.beforeAll(async ({ browser }) => {
  const owner: BrowserContext = await aFirm(browser, 'Tern Rock Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  await workDone(technician, await jobFor(owner, technician));
  job = await jobFor(owner, technician, '0312');
  const stamps = { specification: 'DOT-4BA400', serial: 'TB-30811', waterCapacity: lb('47.6'), tare: lb('28') };
  await command(owner, 'register-cylinder', { cylinderId: newId(), kind: 'recovery', ...stamps });
  desk = await owner.newPage();
  phone = await technician.newPage();
});
test.afterAll(async () => {
  await desk.context().close();
  await phone.context().close();
});

test('take a call', async () => {
  await desk.goto('/calls/new');
  await expect(desk.getByRole('form', { name: 'Take a call' })).toMatchAriaSnapshot({ name: 'take-a-call.aria.yml' });
});

test('place a return visit', async () => {
  await desk.goto('/returns');
  await desk
    .getByRole('list', { name: /^Return visits/ })
    .getByRole('listitem')
    .filter({ hasText: /follow-up/i })
    .getByRole('link', { name: /0311-A/ })
    .click();
  await expect(desk.getByRole('main')).toMatchAriaSnapshot({ name: 'place-a-return-visit.aria.yml' });
});

test('record a recovery', async () => {
  await phone.goto(`/field/visits/${job.visitId}/recovery`);
  await phone.getByRole('radio', { name: 'An isolated part' }).check({ force: true });
  await expect(phone.getByRole('region', { name: 'Before you start' })).toBeVisible();
  await expect(phone.locator('body')).toMatchAriaSnapshot({ name: 'record-a-recovery.aria.yml' });
});

test('read a unit', async () => {
  await desk.goto('/units');
  await desk.getByRole('link', { name: '0311-A' }).click();
  await expect(desk.getByRole('heading', { name: /0311-A/ })).toBeVisible();
  await expect(desk.getByRole('main')).toMatchAriaSnapshot({ name: 'read-a-unit.aria.yml' });
});

test('find a cylinder', async () => {
  await desk.goto('/cylinders');
  const find = desk.getByRole('banner').getByRole('searchbox');
  await expect(async () => {
    await desk.keyboard.press('/');
    await expect(find).toBeFocused({ timeout: 500 });
  }).toPass();
  await desk.keyboard.type('tb-308');
  await desk.keyboard.press('Enter');
  await expect(desk).toHaveURL(/query=tb-308/);
  await expect(desk.locator('body')).toMatchAriaSnapshot({ name: 'find-a-cylinder.aria.yml' });
});
