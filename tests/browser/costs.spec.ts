import { readFile } from 'node:fs/promises';
import type { BrowserContext, Locator, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { dayAt } from './parts/days.ts';
import { pressAt, typeAt } from './parts/desk.ts';
import { aFirm, jobFor, joined, workDone, type Job } from './parts/firm.ts';

/** What leaks again, what it costs, what to replace and what to bill: the manager's morning, by keyboard alone. */
let owner: BrowserContext;
let job: Job;
let desk: Page;
let faults: string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Sorrel Valley Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  await technician.close();
  const manager = await joined(browser, owner, { name: 'Mara Teal', role: 'manager' });
  desk = await manager.newPage();
  faults = listenForFaults(desk);
});
test.afterAll(() => owner.close());

const row = () => desk.getByRole('row').filter({ hasText: '0311-A' });
/** A date field takes its parts as they stand in it: month, day, year. */
const typed = (day: string): string => `${day.slice(5, 7)}${day.slice(8, 10)}${day.slice(0, 4)}`;

/** A page that was just opened may not listen yet: the key is pressed again until the dialog is there. */
const opens = (dialog: Locator, button: Locator): Promise<void> =>
  expect(async () => {
    await pressAt(desk, button);
    await expect(dialog).toBeVisible({ timeout: 1_000 });
  }).toPass();

test('without a price the list says so, and leads to where one is set', async () => {
  await desk.goto('/returns');
  await pressAt(desk, desk.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Costs' }));
  await expect(desk).toHaveURL(/\/repeats$/);
  await expect(row()).toContainText('once');
  await expect(row()).toContainText('18.00 lb');
  await pressAt(desk, row().getByRole('link', { name: /^no price +of R-448A/ }));
  await expect(desk).toHaveURL(/\/prices$/);
  await pressAt(desk, desk.getByRole('button', { name: 'Set a price' }));
  const dialog = desk.getByRole('dialog', { name: 'Set a price' });
  await expect(dialog.getByLabel('Refrigerant')).toHaveValue('R-448A');
  await pressAt(desk, dialog.getByRole('button', { name: 'Set the price' }));
  await expect(dialog.getByRole('alert')).toContainText('give what we pay, what the customer pays, or both');
  await typeAt(desk, dialog.getByLabel('Valid from'), typed(dayAt(job.zone, -100)));
  await typeAt(desk, dialog.getByLabel('We pay'), '11.25');
  await typeAt(desk, dialog.getByLabel('The customer pays'), '24');
  await desk.keyboard.press('Enter');
  await expect(dialog).toBeHidden();
  await expect(desk.getByRole('table', { name: /^Prices of R-448A/ })).toContainText('$11.25 a lb');
  await expect(desk.getByRole('table', { name: /^Prices of R-448A/ })).toContainText('$24.00 a lb');
  await expect(desk.getByText('in force')).toBeVisible();
});

test('every figure leads to what it rests on, down to the fact', async () => {
  await desk.goto('/repeats');
  // 18 lb at 11.25.
  await pressAt(desk, row().getByRole('link', { name: /^\$203 ?, cost of 0311-A/ }));
  await expect(desk).toHaveURL(/\?circuit=[0-9a-f-]{36}#cost$/);
  await expect(desk.locator('[data-landed]')).toContainText('$202.50');
  const evidence = desk.getByRole('complementary', { name: 'What the figures of 0311-A rest on' });
  await expect(evidence).toContainText('Not a top-off: a repair was verified at the visit.');
  await pressAt(desk, evidence.getByRole('list').getByRole('link').last());
  await expect(desk).toHaveURL(/\/units\/.+#fact-/);
  await expect(desk.locator('[data-landed]')).toBeFocused();
  await expect(desk.getByRole('row').filter({ has: desk.locator('[data-landed]') })).toContainText('18 lb');
});

test('the set of warming potentials stays in the address', async () => {
  await desk.goto('/repeats');
  const sets = desk.getByRole('navigation', { name: 'GWP by IPCC report' });
  await expect(sets.getByRole('link', { name: 'AR4' })).toHaveAttribute('aria-current', 'true');
  await pressAt(desk, sets.getByRole('link', { name: 'AR6' }));
  await expect(desk).toHaveURL(/\?gwp=AR6$/);
  // 8,165 g x 1,494.356: R-448A by AR6.
  await expect(row()).toContainText('12 t');
  await desk.goto(desk.url());
  await expect(sets.getByRole('link', { name: 'AR6' })).toHaveAttribute('aria-current', 'true');
});

test('a circuit is planned for replacement with a reason, and the plan is withdrawn with one', async () => {
  await desk.goto('/repeats');
  const plan = desk.getByRole('dialog', { name: 'Replace 0311-A' });
  await opens(plan, desk.getByRole('button', { name: /^Plan replacement +of 0311-A$/ }));
  await desk.keyboard.type('Evaporator is worn through');
  await pressAt(desk, plan.getByRole('button', { name: 'Plan it' }));
  await expect(plan).toBeHidden();
  await expect(row()).toContainText('To be replaced');
  const keep = desk.getByRole('dialog', { name: 'Keep 0311-A' });
  await opens(keep, desk.getByRole('button', { name: /^Withdraw the plan +for 0311-A$/ }));
  await pressAt(desk, keep.getByRole('button', { name: 'Withdraw the plan' }));
  await expect(keep.getByRole('alert')).toContainText('say why');
  await typeAt(desk, keep.getByLabel('Reason'), 'New owner wants a repair');
  await pressAt(desk, keep.getByRole('button', { name: 'Withdraw the plan' }));
  await expect(keep).toBeHidden();
  await expect(row()).not.toContainText('To be replaced');
});

test('gas is marked as billed, the mark is taken back, and the list is a file', async () => {
  await desk.goto('/repeats');
  await pressAt(desk, desk.getByRole('navigation', { name: 'Costs' }).getByRole('link', { name: 'Gas to bill' }));
  await expect(desk).toHaveURL(/\/gas-used$/);
  // 18 lb at 24.
  await expect(row()).toContainText('$432.0');
  const download = desk.waitForEvent('download');
  await pressAt(desk, desk.getByRole('link', { name: 'Download as CSV' }));
  const file = await readFile(await (await download).path(), 'utf8');
  expect(file.split('\r\n')[1]).toContain('"Brackwater Foods"');
  await opens(desk.getByRole('dialog'), desk.getByRole('button', { name: /^Mark as billed: R-448A/ }));
  await desk.keyboard.type('2026-118');
  await desk.keyboard.press('Enter');
  await expect(desk.getByText('All gas stands on an invoice.')).toBeVisible();
  await pressAt(
    desk,
    desk.getByRole('navigation', { name: 'Shown' }).getByRole('link', { name: 'Billed', exact: true }),
  );
  await expect(desk).toHaveURL(/\?billed=billed$/);
  await expect(row()).toContainText('2026-118');
  await pressAt(desk, desk.getByRole('button', { name: /^Take back the mark of R-448A/ }));
  await expect(desk.getByText('No gas is marked as billed yet.')).toBeVisible();
});

test('the screens have no finding in light and dark, at a desk and on a phone', async () => {
  for (const path of ['/repeats', '/gas-used', '/prices']) {
    await desk.goto(path);
    await expectAxeClean(desk, path);
    await desk.setViewportSize(PHONE.viewport);
    await expectAxeClean(desk, `${path} on a phone`);
    await expectNoSideways(desk);
    await desk.setViewportSize({ width: 1440, height: 900 });
  }
  expect(faults).toEqual([]);
});

test('an auditor sees all of it and is offered no act; a dispatcher is not led there', async ({ browser }) => {
  const auditor = await (await joined(browser, owner, { name: 'Nils Amber', role: 'auditor' })).newPage();
  for (const path of ['/repeats', '/gas-used', '/prices']) {
    await auditor.goto(path);
    await expect(auditor.getByRole('heading', { level: 1 })).toBeVisible();
    await expect(auditor.getByText('R-448A').first()).toBeVisible();
    await expect(auditor.getByRole('main').getByRole('button')).toHaveCount(0);
  }
  const dispatcher = await (await joined(browser, owner, { name: 'Tess Alder', role: 'dispatcher' })).newPage();
  await dispatcher.goto('/repeats');
  await expect(dispatcher.getByRole('heading', { level: 1 })).toHaveText('Costs are kept by owner and manager.');
  await expect(dispatcher.getByRole('link', { name: 'Costs' })).toHaveCount(0);
  await auditor.context().close();
  await dispatcher.context().close();
});
