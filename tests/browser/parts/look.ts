/** What every new screen is looked at for. */
import type { Page } from '@playwright/test';
import { expectAxeClean, expectNoSideways, PHONE } from '../fixtures.ts';

const DESK = { width: 1440, height: 900 };

/** For a look at what was made: `LOOK` names a folder. */
export async function look(page: Page, name: string): Promise<void> {
  const folder = process.env.LOOK;
  if (folder === undefined) return;
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    for (const viewport of [DESK, PHONE.viewport]) {
      await page.setViewportSize(viewport);
      await page.screenshot({ path: `${folder}/${name}-${viewport.width}-${colorScheme}.png`, fullPage: true });
    }
  }
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize(DESK);
}
/** Clean for axe in light and dark, and nothing sticks out on a phone. */
export async function check(page: Page, name: string): Promise<void> {
  await page.evaluate(() => document.fonts.ready);
  await look(page, name);
  await expectAxeClean(page, name);
  await page.setViewportSize(PHONE.viewport);
  await expectAxeClean(page, `${name} at a phone’s width`);
  await expectNoSideways(page);
  await page.setViewportSize(DESK);
}
