import type { BrowserContext, Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { command, aFirm, type Job, jobFor, joined, lb, newId, workDone } from './parts/firm.ts';
import { chooseAt, pressAt } from './parts/desk.ts';

/** From a number to what it rests on: every step by keyboard, and the address says where one is. */
let desk: Page;
let job: Job;
test.beforeAll(async ({ browser }) => {
  const owner: BrowserContext = await aFirm(browser, 'Sable Point Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  await jobFor(owner, technician, '0312');
  const stamps = { specification: 'DOT-4BA400', serial: 'TB-30811', waterCapacity: lb('47.6'), tare: lb('28') };
  await command(owner, 'register-cylinder', { cylinderId: newId(), kind: 'recovery', ...stamps });
  desk = await owner.newPage();
});
test.afterAll(() => desk.context().close());

test('a stop of the week opens its visit, and says which it is', async () => {
  await desk.goto('/returns');
  const stops = desk.getByRole('list', { name: 'Technicians and their week' }).getByRole('link');
  await expect(stops).toHaveCount(2);
  const done = stops.filter({ hasText: '0311-A' });
  await expect(done).toHaveAccessibleName(/\d\d:\d\d 8 Tannery ?, \w{3} \d+ \w{3}, 0311-A at .+, done, 120 min/);
  const box = await done.boundingBox();
  expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(24);
  await pressAt(desk, stops.filter({ hasText: '0312-A' }));
  await expect(desk).toHaveURL(/\/visits\/[0-9a-f-]{36}$/);
  await expect(desk.getByRole('heading', { level: 1 })).toContainText('Call at');
});

test('the bar of a stop on the axis opens it too', async () => {
  await desk.goto('/returns');
  const stop = desk.getByRole('list', { name: 'Technicians and their week' }).getByRole('link', { name: /0312-A/ });
  const bar = await stop.evaluate((element) => {
    const { left, top, height } = getComputedStyle(element, '::after');
    const from = element.closest('ul')?.getBoundingClientRect();
    return { x: (from?.x ?? 0) + parseFloat(left) + 8, y: (from?.y ?? 0) + parseFloat(top) + parseFloat(height) / 2 };
  });
  await desk.mouse.click(bar.x, bar.y);
  await expect(desk).toHaveURL(/\/visits\//);
});

test('a balance opens its statement, a line of it its fact, which has the focus', async () => {
  await desk.goto('/books');
  await pressAt(desk, desk.getByRole('link', { name: /the statement of 0311-A$/ }));
  await expect(desk).toHaveURL(/\/books\/[0-9a-f-]{36}\?gas=R-448A$/);
  await expect(desk).toHaveTitle(/^Statement of 0311-A/);
  const table = desk.getByRole('table', { name: /^Movements of 0311-A/ });
  await expect(table.getByRole('row').nth(1)).toContainText('Opening');
  // 220 lb, full again after the charge: 99,790 g (1 lb = 453.59237 g).
  await expect(table.getByRole('row').last()).toContainText('Closing, now');
  await expect(table.getByRole('row').last()).toContainText('99,790 g');
  await pressAt(desk, table.getByRole('link', { name: /^charge: 160 lb to 142 lb/ }).first());
  await expect(desk).toHaveURL(/\/visits\/.+#fact-/);
  const landed = desk.locator('[data-landed]');
  await expect(landed).toBeFocused();
  await expect(landed).toContainText('160 lb to 142 lb gross, from NG-77');
  await expect(landed).toBeInViewport();
});

test('a name in the books opens the thing itself, and from a cylinder its whole statement', async () => {
  await desk.goto('/books');
  await pressAt(desk, desk.getByRole('link', { name: 'NG-77', exact: true }));
  await expect(desk).toHaveURL(/\/cylinders\/[0-9a-f-]{36}$/);
  await pressAt(desk, desk.getByRole('link', { name: 'The statement' }));
  await expect(desk.getByRole('heading', { level: 1 })).toHaveText('NG-77 R-448A');
});

test('a duty that is done leads to the fact that did it', async () => {
  await desk.goto(`/units/${job.unitId}`);
  const duties = desk.getByRole('region', { name: 'Duties' });
  await pressAt(desk, duties.getByRole('link', { name: /^repair: L1/ }).first());
  await expect(desk.locator('[data-landed]')).toContainText('New flare');
  await expect(desk.locator('[data-landed]')).toBeFocused();
  // And on the visit itself, without leaving the page.
  await pressAt(desk, desk.getByRole('link', { name: /^verification test: initial/ }));
  await expect(desk.locator('[data-landed]')).toContainText('Verification test');
  await expect(desk.locator('[data-landed]')).toHaveCount(1);
});

test('cylinders are cut down to the gas that is in them, by keyboard, and the address says so', async () => {
  await desk.goto('/cylinders');
  await expect(desk.getByRole('row')).toHaveCount(3);
  await chooseAt(desk, desk.getByLabel('Gas in it'), /^R-448A$/);
  await pressAt(desk, desk.getByRole('button', { name: 'Filter' }));
  await expect(desk).toHaveURL(/\/cylinders\?gas=R-448A$/);
  await expect(desk.getByRole('row')).toHaveCount(2);
  await expect(desk.getByRole('row').last()).toContainText('NG-77');
  await expect(desk.getByLabel('Gas in it')).toHaveValue('R-448A');
  await chooseAt(desk, desk.getByLabel('Doubts'), /^in doubt$/);
  await pressAt(desk, desk.getByRole('search', { name: 'Filter' }).getByRole('searchbox'));
  await expect(desk).toHaveURL(/\?gas=R-448A&doubt=doubted$/);
  await expect(desk.getByText('No cylinder is like that.')).toBeVisible();
  await pressAt(desk, desk.getByRole('link', { name: 'Show all' }));
  await expect(desk.getByRole('row')).toHaveCount(3);
});
