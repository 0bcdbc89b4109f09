import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, PHONE, test } from './fixtures.ts';
import { dayAt, dayWords } from './parts/days.ts';
import { aFirm, command, jobFor, joined, newId } from './parts/firm.ts';

/** Two managers look at the people of one contractor; neither reloads. */
test.describe.configure({ mode: 'serial' });
let owner: BrowserContext;
let manager: BrowserContext;
let mine: Page;
let theirs: Page;
let zone: string;
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Sedge Lane Cooling');
  manager = await joined(browser, owner, { name: 'Anselm Roe', role: 'manager' });
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician' });
  ({ zone } = await jobFor(owner, technician));
  await command(owner, 'register-person', { personId: newId(), name: 'Wren Achterby', certificates: [] });
  mine = await owner.newPage();
  theirs = await manager.newPage();
  for (const page of [mine, theirs]) {
    await page.goto('/people');
    await expect(page.getByRole('row', { name: /Rosa Quill/ })).toBeVisible();
    await page.evaluate(() => Reflect.set(window, 'neverReloaded', true));
  }
});
test.afterAll(async () => {
  for (const page of [mine, theirs]) expect(await page.evaluate(() => Reflect.get(window, 'neverReloaded'))).toBe(true);
  await owner.close();
  await manager.close();
});
const row = (page: Page, name: RegExp) => page.getByRole('row', { name });

test('an invitation, a newcomer and another role appear on the other’s screen by themselves', async ({ browser }) => {
  const invitations = theirs.getByRole('region', { name: 'Invitations' });
  await expect(invitations).toContainText('No invitation waits.');
  await mine.getByRole('button', { name: 'Invite somebody' }).click();
  const dialog = mine.getByRole('dialog');
  await dialog.getByLabel('E-mail').fill('later@firm.example');
  await dialog.getByLabel('Role').selectOption({ label: 'Auditor' });
  await dialog.getByRole('button', { name: 'Make the link' }).click();
  await expect(invitations).toContainText('later@firm.example');
  await dialog.getByRole('button', { name: 'Done' }).click();
  await expect(mine.getByRole('button', { name: 'Invite somebody' }), 'the focus comes back').toBeFocused();
  await theirs.getByRole('button', { name: 'Withdraw the invitation of later@firm.example' }).click();
  await expect(mine.getByText('No invitation waits.')).toBeVisible();

  const keeper = await joined(browser, owner, { name: 'Cal Dunmore', role: 'warehouse' });
  for (const page of [mine, theirs]) await expect(row(page, /Cal Dunmore/)).toContainText('Warehouse keeper');
  await mine.getByRole('button', { name: 'Sign-in of Cal Dunmore' }).click();
  await mine.getByRole('dialog').getByLabel('Role').selectOption({ label: 'Dispatcher' });
  await mine.getByRole('dialog').getByRole('button', { name: 'Change the role' }).click();
  await expect(row(theirs, /Cal Dunmore/)).toContainText('Dispatcher');
  await keeper.close();
});

test('a certificate is ended with a reason, and put right again; the other sees both', async () => {
  const today = dayAt(zone);
  await mine.getByRole('button', { name: 'Certificates of Rosa Quill' }).click();
  const dialog = mine.getByRole('dialog');
  await dialog.getByRole('button', { name: 'End Type II' }).click();
  await expect(dialog.getByLabel('Not valid from')).toHaveValue(today);
  await expect(dialog).toContainText('One visit from now on is placed on Rosa Quill');
  await dialog.getByRole('button', { name: 'End it' }).click();
  await expect(dialog.getByRole('alert').getByRole('link')).toHaveText(/Why/);
  await dialog.getByLabel('Why').fill('Withdrawn by the agency.');
  await expectAxeClean(mine, 'ending a certificate');
  await dialog.getByRole('button', { name: 'End it' }).click();
  const ended = `Type II, ended ${dayWords(dayAt(zone, -1))}`;
  await expect(dialog.getByRole('listitem')).toContainText(ended);
  await expect(mine.getByRole('status').getByText(/certificate for .* ended on/)).toBeVisible();
  await expect(row(theirs, /Rosa Quill/)).toContainText(ended);

  await dialog.getByRole('button', { name: `Correct ${ended}` }).click();
  await dialog.getByLabel('Ends on').fill('');
  await dialog.getByLabel('Certificate').selectOption({ label: 'Universal' });
  await dialog.getByLabel('Why').fill('The card says Universal.');
  await dialog.getByRole('button', { name: 'Put it right' }).click();
  await expect(dialog.getByRole('listitem')).toHaveText(/^Universal/);
  await dialog.getByRole('button', { name: 'Done' }).click();
  await expect(row(theirs, /Rosa Quill/)).toContainText('Universal');
});

test('the visit that the ended certificate no longer covers was left to a person', async () => {
  const page = await manager.newPage();
  await page.goto('/attention');
  const item = page
    .getByRole('listitem')
    .filter({ hasText: /0311-A on .* is placed on Rosa Quill\. .* Place it anew\./ });
  // The certificate that was put right answers it: it stands among what is closed.
  await page.getByText('Closed: one item').click();
  await expect(item).toContainText('no longer so');
  await item.getByRole('link', { name: 'Open the visit' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Call');
  await page.close();
});

test('somebody leaves and comes back', async () => {
  await mine.getByRole('button', { name: 'Wren Achterby has left' }).click();
  await mine.getByRole('dialog').getByRole('button', { name: 'Has left' }).click();
  await expect(row(theirs, /Wren Achterby/)).toHaveCount(0);
  await theirs.getByText('Left: one person').click();
  await expect(row(theirs, /Wren Achterby/)).toBeVisible();
  await theirs.setViewportSize(PHONE.viewport);
  await expectAxeClean(theirs, 'people at a phone’s width');
  await theirs.getByRole('button', { name: 'Wren Achterby is back' }).click();
  await expect(mine.getByRole('button', { name: 'Wren Achterby has left' })).toBeVisible();
});
