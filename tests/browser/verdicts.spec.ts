import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { aFirm, command, type Job, jobFor, joined, newId } from './parts/firm.ts';

/** The technician's sums while readings are typed: the verdict first, the figures behind it, nothing decided for them. */
let owner: BrowserContext;
let phone: BrowserContext;
let job: Job;
let page: Page;
let faults: string[];

test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Tern Cove Cooling');
  phone = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, phone);
  await command(phone, 'arrive', { visitId: job.visitId });
  await command(owner, 'register-instrument', {
    instrumentId: newId(),
    kind: 'gauge',
    tag: 'G-2',
    repeatability: { value: 0.05, unit: 'psi' },
  });
  page = await phone.newPage();
  faults = listenForFaults(page);
});
test.afterAll(async () => {
  await phone.close();
  await owner.close();
});

const field = (name: string) => page.getByRole('textbox', { name: new RegExp(`^${name}`) });

test('nitrogen that stands where it should, beside what a gauge and a thermometer can tell', async () => {
  await page.goto(`/field/visits/${job.visitId}/test`);
  await field('Pressure at the start').fill('500');
  await field('Temperature at the start').fill('80');
  await field('Pressure at the end').fill('500');
  await expect(page.getByRole('region', { name: 'What the test says' })).toHaveCount(0);
  await field('Temperature at the end').fill('80');
  const card = page.getByRole('region', { name: 'What the test says' });
  await expect(card.getByRole('heading')).toHaveText('The readings cannot tell');
  await expect(card).toContainText('With nothing lost it stands at 500 psig now.');
  await field('Pressure at the end').fill('470');
  await expect(card.getByRole('heading')).toHaveText('It lost gas');
  await expect(card).toContainText('Gauge read to 0.5 psi');
  await page.getByRole('combobox', { name: /^Gauge/ }).selectOption({ label: 'G-2, gauge' });
  await expect(card).toContainText('Gauge as its repeatability says');
  await card.getByText('Figures and reasons').click();
  await expect(card).toContainText('Span et al.');
  await expectAxeClean(page, 'a test with its verdict');
  await expectNoSideways(page);
});

test('a hold that climbs straight is air; one that stays low is tight', async () => {
  await page.goto(`/field/visits/${job.visitId}/vacuum`);
  const read = async (at: number, minutes: string, micron: string) => {
    await page.getByRole('textbox', { name: 'Minutes after isolation' }).nth(at).fill(minutes);
    await field(`Vacuum at ${minutes} min`).fill(micron);
  };
  await read(0, '0', '300');
  await read(1, '10', '330');
  const card = page.getByRole('region', { name: 'What the hold says' });
  await expect(card.getByRole('heading')).toHaveText('The readings cannot tell');
  await page.getByRole('button', { name: 'Another reading' }).click();
  await read(2, '15', '340');
  await expect(card.getByRole('heading')).toHaveText('Tight');
  await expectAxeClean(page, 'a hold with its curve');
  await read(1, '10', '2300');
  await read(2, '15', '3300');
  for (const [at, minutes, micron] of [
    [3, '20', '4300'],
    [4, '25', '5300'],
    [5, '30', '6300'],
  ] as const) {
    await page.getByRole('button', { name: 'Another reading' }).click();
    await read(at, minutes, micron);
  }
  await expect(card.getByRole('heading')).toHaveText('Air comes in');
  await expect(card.getByRole('img')).toHaveAttribute('aria-label', /^micron: 300 after 0 min, 2300 after 10 min/);
  await expectNoSideways(page);
});

test('superheat and subcooling of a running unit, in the unit of the thermometer', async () => {
  await page.goto(`/field/visits/${job.visitId}/readings`);
  await page.getByRole('radio', { name: 'Running' }).check({ force: true });
  await field('Suction pressure').fill('50');
  await field('Suction line').fill('40');
  const card = page.getByRole('region', { name: 'Superheat and subcooling' });
  await expect(card).toContainText(/Superheat −?[\d.]+ °F, two sigma [\d.]+ °F/);
  await field('Discharge pressure').fill('250');
  await field('Liquid line').fill('85');
  await expect(card).toContainText(/Subcooling −?[\d.]+ °F/);
  await expectAxeClean(page, 'readings with their lines');
});

test('nothing went wrong on the way', () => expect(faults).toEqual([]));
