import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { test as base, expect } from '@playwright/test';
import type { Browser, BrowserContext, ConsoleMessage, Page } from '@playwright/test';
import * as z from 'zod';

const Demo = z.object({ signIns: z.array(z.object({ role: z.string(), email: z.string(), password: z.string() })) });
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

const BOTH: readonly ('light' | 'dark')[] = ['light', 'dark'];
/** No finding of the accessibility rules, in light and in dark. */
export async function expectAxeClean(page: Page, what: string, schemes = BOTH): Promise<void> {
  // A page's title comes with its data, after its first bytes.
  await expect(page).toHaveTitle(/./);
  for (const colorScheme of schemes) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).withTags(TAGS).analyze();
    const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(' | ')}`);
    expect(found, `${what}, ${colorScheme}`).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: 'light' });
}

/** Nothing sticks out of the page sideways. */
export async function expectNoSideways(page: Page): Promise<void> {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(over).toBeLessThanOrEqual(0);
}

/** What the page says on its console as an error: a script that the policy refused, a load that failed, a fault of ours. */
export function listenForFaults(page: Page): string[] {
  const faults: string[] = [];
  // With what it is about: of a resource that did not come, the text says no name.
  const about = (message: ConsoleMessage): string => `${message.text()} (${message.location().url})`;
  page.on('console', (message) => message.type() === 'error' && faults.push(`${page.url()}: ${about(message)}`));
  page.on('pageerror', (error) => faults.push(`${page.url()}: ${error.message}`));
  return faults;
}

export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** Where a role's day begins; the start only leads there. */
export const FIRST_SCREEN = /\/(returns|field|cylinders)$/;

/** A person of the demo, signed in, in a browser of their own. */
export async function signedIn(browser: Browser, role: string, options: object = {}): Promise<Page> {
  const file = join(import.meta.dirname, '../../.data/browser/demo.json');
  const person = Demo.parse(JSON.parse(readFileSync(file, 'utf8'))).signIns.find((one) => one.role === role);
  if (!person) throw new Error(`the demo has no ${role}`);
  const context: BrowserContext = await browser.newContext(options);
  const page = await context.newPage();
  await page.goto('/sign-in');
  await page.getByLabel('E-mail').fill(person.email);
  await page.getByLabel('Password').fill(person.password);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.waitForURL(FIRST_SCREEN);
  return page;
}

export const test = base;
export { expect };
