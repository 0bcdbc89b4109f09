/** What a technician's thumb does, by the labels on the screen. */
import { expect } from '@playwright/test';
import type { Locator, Page } from '@playwright/test';

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** A label whole, with or without its "(optional)". */
const whole = (label: string): RegExp => new RegExp(`^${escaped(label)}( \\(optional\\))?$`);

export const field = (page: Page, label: string): Locator => page.getByLabel(whole(label));
export const fill = (page: Page, label: string, text: string): Promise<void> => field(page, label).fill(text);

export interface Entered {
  readonly text: string;
  /** As the key says it, when it is not the one already pressed. */
  readonly unit?: string;
}
/** A figure and the key of its unit. */
export async function figure(page: Page, label: string, { text, unit }: Entered): Promise<void> {
  await fill(page, label, text);
  if (unit === undefined) return;
  await page
    .getByRole('group', { name: `Unit of ${label}` })
    .getByRole('button', { name: unit, exact: true })
    .click();
}

/** One of a few answers under a question. */
export async function choose(page: Page, question: string, answer: string): Promise<void> {
  const group = page.getByRole('group', { name: whole(question) });
  const radio = group.getByRole('radio', { name: new RegExp(`^${escaped(answer)}`) });
  await radio.check({ force: true });
  await expect(radio).toBeChecked();
}

export const pick = async (page: Page, label: string, text: string): Promise<void> => {
  await field(page, label).selectOption({ label: text });
};

/** Saves the step and waits until the server has it. */
export async function save(page: Page, button: string, recorded: string | RegExp): Promise<void> {
  await page.getByRole('button', { name: button, exact: true }).click();
  await expect(page.getByRole('list', { name: 'Recorded' })).toContainText(recorded);
  await expect(page.getByText('nothing left on this phone')).toBeVisible();
}

/** Goes on to the step that the main button names. */
export async function next(page: Page, step: string): Promise<void> {
  await page.getByRole('button', { name: `Next: ${step}` }).click();
  await expect(page.getByRole('heading', { level: 1, name: step })).toBeVisible();
}
