/** What somebody at a desk does, most of it by keyboard alone. */
import { expect } from '@playwright/test';
import type { Browser, BrowserContextOptions, Locator, Page } from '@playwright/test';
import { FIRST_SCREEN } from '../fixtures.ts';
import { PASSWORD } from './firm.ts';

const MOST_TABS = 80;
/** Presses Tab until the control has the focus; it must be reachable so. */
export async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let i = 0; i < MOST_TABS; i++) {
    if (await control.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  await expect(control, 'reached by Tab').toBeFocused();
}

/** Goes to a control by Tab and types; in a list the letters choose. */
export async function typeAt(page: Page, control: Locator, text: string): Promise<void> {
  await tabTo(page, control);
  await page.keyboard.type(text);
}

export async function pressAt(page: Page, control: Locator, key = 'Enter'): Promise<void> {
  await tabTo(page, control);
  await page.keyboard.press(key);
}

/** Chooses in a list by keyboard: the arrows lead past what the letters do not tell apart. */
export async function chooseAt(page: Page, list: Locator, text: RegExp): Promise<void> {
  await tabTo(page, list);
  await page.keyboard.press('Home');
  const chosen = (): Promise<string> =>
    list.evaluate((element: HTMLSelectElement) => element.selectedOptions[0]?.text ?? '');
  const most = await list.locator('option').count();
  for (let i = 0; i < most && !text.test(await chosen()); i++) await page.keyboard.press('ArrowDown');
  expect(await chosen()).toMatch(text);
}

export interface Somebody {
  readonly name: string;
  readonly email: string;
}

/** Follows a link that was handed on, makes an account, and signs in with it once more in a browser of their own. */
export async function joinBy(
  browser: Browser,
  who: Somebody & { link: string },
  options: BrowserContextOptions = {},
): Promise<Page> {
  const page = await (await browser.newContext(options)).newPage();
  await page.goto(who.link);
  await expect(page.getByLabel('E-mail')).toHaveValue(who.email);
  await page.getByLabel('Your name').fill(who.name);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: /^Join / }).click();
  await page.waitForURL(FIRST_SCREEN);
  await page.context().clearCookies();
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(who.email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL(FIRST_SCREEN);
  return page;
}

/** Invites by a link and answers it. */
export async function invite(owner: Page, who: { email: string; role: string }): Promise<string> {
  await owner.getByRole('button', { name: 'Invite somebody' }).click();
  const dialog = owner.getByRole('dialog');
  await dialog.getByLabel('E-mail').fill(who.email);
  await dialog.getByLabel('Role').selectOption({ label: who.role });
  await dialog.getByRole('button', { name: 'Make the link' }).click();
  const link = await dialog.getByRole('textbox', { name: 'The link' }).inputValue();
  await dialog.getByRole('button', { name: 'Done' }).click();
  return link;
}

export async function certify(owner: Page, name: string, given: { type: string; registeredOn: string }): Promise<void> {
  await owner.getByRole('button', { name: `Certificates of ${name}` }).click();
  const dialog = owner.getByRole('dialog');
  await dialog.getByLabel('Certificate').selectOption({ label: given.type });
  await dialog.getByLabel('Registered on').fill(given.registeredOn);
  await dialog.getByRole('button', { name: 'Register' }).click();
  await expect(dialog).toBeHidden();
}
