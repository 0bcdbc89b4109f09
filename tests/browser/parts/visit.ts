/** The technician's visit of the story, step by step on the phone. Figures of our own. */
import { expect, test } from '@playwright/test';
import type { Page } from '@playwright/test';
import { choose, field, figure, fill, next, pick, save } from './phone.ts';

/** The dangers of a step stand above its fields, and who rules under them. */
async function cautioned(page: Page, ...dangers: readonly string[]): Promise<void> {
  for (const danger of dangers)
    await expect(page.getByRole('complementary', { name: `Caution: ${danger}` })).toBeVisible();
  await expect(page.getByText('Local codes, the maker’s instructions and licensed practice rule.')).toBeVisible();
}

async function safeAndChecked(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'I am here: start with safety' }).click();
  await expect(page.getByRole('heading', { name: 'Safety', level: 1 })).toBeVisible();
  await cautioned(page, 'Electricity', 'Suffocation');
  for (const check of ['Off, locked out', 'Ventilated', 'Gas checked', 'Gloves and goggles'])
    await page.getByRole('checkbox', { name: new RegExp(`^${check}`) }).check();
  await fill(page, 'Why not: cylinders upright and strapped', 'Still in the van');
  await save(page, 'Safe to work', '4 of 5');
  await next(page, 'Tool check');
  await page.getByRole('button', { name: 'New detector' }).click();
  await fill(page, 'Tag', 'D-14');
  await figure(page, 'Senses', { text: '5' });
  await page.getByRole('button', { name: 'Register it' }).click();
  await expect(field(page, 'Tool')).toHaveValue(/./);
  await choose(page, 'Checked against', 'Leak standard');
  await figure(page, 'Leak standard', { text: '5' });
  await choose(page, 'Result', 'Pass');
  await save(page, 'Save the check', 'D-14');
}

async function readings(page: Page): Promise<void> {
  await next(page, 'First readings');
  await figure(page, 'Ambient where the liquid lies', { text: '63' });
  await figure(page, 'Standing pressure', { text: '127' });
  await save(page, 'Save the readings', '127');
  // Warm cases, a standing pressure at saturation: there is liquid, so the search goes on by detector.
  await expect(page.getByRole('region', { name: 'What it means' })).toContainText(/detector/i);
}

async function look(page: Page): Promise<void> {
  await next(page, 'Looks');
  await page.locator('summary', { hasText: /^Outdoor unit/ }).click();
  await page.getByRole('checkbox', { name: 'Service valve core' }).check();
  await pick(page, 'Method', 'Electronic detector');
  await pick(page, 'Instrument', 'D-14, detector, 5 g/yr');
  await expect(field(page, 'Sensitivity')).toHaveValue('5');
  await page.getByRole('button', { name: 'Clear', exact: true }).click();
  await save(page, 'Save this look', 'Service valve core');
  await page.getByRole('button', { name: 'Another look' }).click();
  await page.locator('summary', { hasText: /^Lines/ }).click();
  await page.getByRole('checkbox', { name: 'Flare nut' }).check();
  await fill(page, 'Where exactly', 'case 7');
  await pick(page, 'Method', 'Soap bubbles');
  await page.getByRole('button', { name: 'Found', exact: true }).click();
  await save(page, 'Save this look', 'Flare nut');
}

async function leakAndConsent(page: Page): Promise<void> {
  await next(page, 'Leak points');
  await pick(page, 'Place', 'Flare nut');
  await fill(page, 'Where', 'Expansion valve, case 7');
  await figure(page, 'Size, low end', { text: '1200' });
  await figure(page, 'Size, high end', { text: '6000' });
  await save(page, 'Save this leak point', /flare nut/i);
  await expect(page.getByRole('region', { name: 'Found against gone' })).toContainText(/explains/i);
  await next(page, 'Options and consent');
  await fill(page, 'Option', 'New flare and nut');
  await page.getByRole('button', { name: 'Another option' }).click();
  await fill(page, 'Option 2', 'New expansion valve');
  await choose(page, 'The customer wants', 'Repair now');
  await fill(page, 'Decided by', 'Ines Varga');
  await save(page, 'Save the decision', /Ines Varga/);
}

async function recovery(page: Page): Promise<void> {
  await next(page, 'Recovery');
  await cautioned(page, 'Cylinder', 'Cold burn');
  await choose(page, 'Taken from', 'An isolated part');
  await fill(page, 'Which part', 'Liquid line of cases 5 to 8');
  await expect(
    page.getByRole('group', { name: 'A leak is open in what you recover' }).getByRole('radio', { name: 'Yes' }),
  ).toBeChecked();
  await figure(page, 'Opening', { text: '1' });
  await figure(page, 'Open for', { text: '20' });
  const level = page.getByRole('region', { name: 'Before you start' });
  await expect(level).toContainText('Not major work');
  await expect(level).toContainText(/40 CFR 82\.156/);
  await expect(level, 'what an open leak risks is said before the act').toContainText(/air/i);
  await recoveryCylinder(page);
  await choose(page, 'The cylinder was evacuated before its first fill', 'Yes');
  await figure(page, 'Gross before', { text: '12701', unit: 'g' });
  await figure(page, 'Gross after', { text: '24701', unit: 'g' });
  await expect(page.getByText('Taken out')).toBeVisible();
  await figure(page, 'Stopped at', { text: '-2.9' });
  await figure(page, 'Minutes below site pressure', { text: '10' });
  await fill(page, 'Why lower', 'Oil kept boiling off');
  await save(page, 'Save the recovery', /12[,.]?000/);
}

/** Nobody knows the serial: it is registered by its stamps where it stands. */
async function recoveryCylinder(page: Page): Promise<void> {
  await fill(page, 'Into cylinder', 'TB-30811');
  await field(page, 'Into cylinder').press('Enter');
  await page.getByRole('button', { name: 'Register TB-30811 here' }).click();
  const form = page.getByRole('region', { name: 'Register cylinder TB-30811' });
  await expect(form).toBeVisible();
  await fill(page, 'Specification', 'DOT-4BA400');
  await figure(page, 'Water capacity', { text: '47.6', unit: 'lb' });
  await figure(page, 'Tare', { text: '28', unit: 'lb' });
  await fill(page, 'Last test', '03-24');
  await form.getByRole('button', { name: 'Register it' }).click();
  await expect(page.getByRole('region', { name: 'Cylinder TB-30811' })).toContainText('Empty.');
}

async function repairAndTest(page: Page): Promise<void> {
  await next(page, 'Repair');
  await cautioned(page, 'Torch', 'Nitrogen');
  await expect(page.getByRole('checkbox', { name: /Flare nut, Expansion valve, case 7/i })).toBeChecked();
  await fill(page, 'What was done', 'New flare, nut tightened to the maker’s torque');
  await choose(page, 'The circuit or its part was opened', 'Yes');
  await choose(page, 'Drier changed', 'Yes');
  await save(page, 'Save the repair', 'New flare');
  await next(page, 'Initial verification');
  await cautioned(page, 'Nitrogen');
  await figure(page, 'Pressure at the start', { text: '300' });
  await figure(page, 'Pressure at the end', { text: '300' });
  await figure(page, 'Held for', { text: '30' });
  await choose(page, 'Result', 'Pass');
  await save(page, 'Save the test', /initial/i);
  await next(page, 'Evacuation and hold');
  await cautioned(page, 'Vacuum');
  await figure(page, 'Vacuum at 0 min', { text: '420' });
  await figure(page, 'Vacuum at 10 min', { text: '480' });
  await choose(page, 'Result', 'Pass');
  await save(page, 'Save the hold', '480');
}

/** What was taken out goes back in, then 18 lb more, read a tenth too low and put right before leaving. */
async function charge(page: Page): Promise<void> {
  await next(page, 'Charge');
  await cautioned(page, 'Cylinder', 'Cold burn');
  await fill(page, 'From cylinder', 'ng-2207');
  await field(page, 'From cylinder').press('Enter');
  await expect(page.getByRole('region', { name: 'Cylinder NG-2207' })).toContainText(/R-448A, new/);
  await figure(page, 'Gross before', { text: '72575', unit: 'g' });
  await figure(page, 'Gross after', { text: '60575', unit: 'g' });
  await choose(page, 'Is the circuit full now?', 'Not full');
  await save(page, 'Save this charge', /12[,.]?000/);
  await page.getByRole('button', { name: 'Another charge' }).click();
  await fill(page, 'From cylinder', 'NG-2207');
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await expect(page.getByRole('region', { name: 'Cylinder NG-2207' })).toBeVisible();
  await figure(page, 'Gross before', { text: '133.54', unit: 'lb' });
  await figure(page, 'Gross after', { text: '115.44', unit: 'lb' });
  await expect(page.getByRole('region', { name: 'Rate' })).toContainText('Over 20 %');
  await choose(page, 'Is the circuit full now?', 'Full now');
  await save(page, 'Save this charge', '18.1');
}

async function closing(page: Page): Promise<void> {
  await next(page, 'Inspection');
  await choose(page, 'All visible and accessible parts were covered', 'Yes');
  await page.getByRole('button', { name: 'A part that could not be reached' }).click();
  await fill(page, 'Could not be reached', 'Line in the wall');
  await fill(page, 'Why', 'Behind insulation');
  await expect(page.getByRole('checkbox', { name: 'Electronic detector' })).toBeChecked();
  await expect(page.getByRole('checkbox', { name: 'Soap bubbles' })).toBeChecked();
  await save(page, 'Save the inspection', /inspection/i);
  await next(page, 'Closing readings');
  await figure(page, 'Suction pressure', { text: '32' });
  await figure(page, 'Discharge pressure', { text: '210' });
  await figure(page, 'Suction line', { text: '28' });
  await figure(page, 'Liquid line', { text: '88' });
  await save(page, 'Save the readings', '32');
  await page.getByRole('button', { name: /^It runs normally, says / }).click();
  await expect(page.getByRole('region', { name: 'Your statement' })).toContainText('runs normally since');
}

async function correctAndLeave(page: Page): Promise<void> {
  await next(page, 'Leave');
  await expect(page.getByRole('region', { name: 'Leak rate' })).not.toContainText('39.82');
  await page
    .getByRole('button', { name: /^Correct/ })
    .last()
    .click();
  await figure(page, 'Gross after', { text: '115.54' });
  await fill(page, 'Why', 'Read the wrong line');
  await page.getByRole('button', { name: 'Save the correction' }).click();
  await expect(page.getByText('Read the wrong line. The first stays in the record.')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Leak rate' })).toContainText('39.82 %');
  await expect(page.getByText('What the law asks next')).toBeVisible();
  await fill(page, 'Summary for the customer', 'Flare nut of case 7 made new; full again.');
  await page.getByRole('button', { name: 'Finish the visit' }).click();
  await expect(page.getByRole('button', { name: 'To today' })).toBeVisible();
}

const PARTS = {
  'safety and tool check': safeAndChecked,
  'first readings and their branch': readings,
  looks: look,
  'leak point, options, consent': leakAndConsent,
  'recovery into a cylinder registered on the spot': recovery,
  'repair, test before any gas, vacuum hold': repairAndTest,
  'charge by gross weights': charge,
  'inspection, closing readings, statement': closing,
  'a wrong weight corrected, and leaving': correctAndLeave,
};
/** From the open visit to the end of it. */
export async function workThrough(page: Page): Promise<void> {
  for (const [name, part] of Object.entries(PARTS)) await test.step(name, () => part(page));
}
