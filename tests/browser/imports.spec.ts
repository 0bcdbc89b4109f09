import type { BrowserContext, Page } from '@playwright/test';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, test } from './fixtures.ts';
import { aFirm } from './parts/firm.ts';
import { sample } from './parts/imports.ts';

// What the first enters the others find: without it they say nothing.
test.describe.configure({ mode: 'serial' });

let owner: BrowserContext;
let page: Page;
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Larch Hill Refrigeration', 'America/Denver');
  page = await owner.newPage();
});
test.afterAll(() => owner.close());

/** Chooses a file and has it read: the columns are then proposed. */
async function choose(kind: string, file: string): Promise<void> {
  await page.goto('/import');
  await page.getByRole('radio', { name: kind }).check();
  await page.getByLabel('File', { exact: true }).setInputFiles(sample(file));
  await page.getByRole('button', { name: 'Read the file' }).click();
  await expect(page.getByRole('heading', { level: 1, name: file })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'What each column holds' })).toBeVisible();
}
async function look(what: string): Promise<void> {
  await expectAxeClean(page, what);
  await page.setViewportSize({ width: 390, height: 844 });
  await expectNoSideways(page);
  await page.setViewportSize({ width: 1440, height: 900 });
}

test('a contractor with spreadsheets starts on a Monday', async () => {
  const faults = listenForFaults(page);
  await page.goto('/units');
  await page.getByRole('link', { name: 'Import' }).click();
  await page.getByRole('button', { name: 'Read the file' }).click();
  await expect(page.getByRole('main').getByRole('alert')).toContainText('File: choose an XLSX or CSV file.');
  await look('choosing a file');

  await choose('Customers, units and circuits', 'units.csv');
  await expect(page.getByLabel('Client holds')).toHaveValue('customer');
  await expect(page.getByLabel('Asset Tag holds')).toHaveValue('tag');
  await look('matching columns');
  await page.getByRole('button', { name: 'Check the rows' }).press('Enter');
  await expect(page.getByText('6 rows would be entered.')).toBeVisible();
  await expect(page.getByRole('row', { name: /^Row 2 / })).toContainText('Height of the site unknown: sea level taken');
  await page.getByRole('button', { name: 'Change the columns' }).click();
  await page.getByLabel('Elevation of sites, m').fill('1600');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await expect(page.getByText('6 rows would be entered.')).toBeVisible();
  await expect(page.getByRole('row', { name: /^Row 2 / })).not.toContainText('sea level');
  await expect(page.getByRole('row', { name: /^Row 2 / })).toContainText('365 days assumed, because');
  await look('the report');
  await page.getByRole('button', { name: 'Enter 6 rows' }).click();
  await expect(page.getByText('6 rows entered.')).toBeVisible();
  await page.goto('/units');
  await expect(page.getByRole('rowheader', { name: /0417-A/ })).toBeVisible();

  await choose('Past additions', 'additions.csv');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await page.getByRole('button', { name: 'Enter 4 rows' }).click();
  await expect(page.getByText('4 rows entered.')).toBeVisible();
  expect(faults).toEqual([]);
});

test('the same headings are remembered, what is wrong is told row by row, what is nearly alike is asked about', async () => {
  await choose('Customers, units and circuits', 'units-with-faults.csv');
  await page.getByLabel('Elevation of sites, m').fill('1600');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await expect(page.getByRole('row', { name: /^Row 3 / })).toContainText('“R-999” is not known here; give its number');
  await look('faults, row by row');
  await choose('Customers, units and circuits', 'units.csv');
  await expect(page.getByText('As you said for the last file with these headings.')).toBeVisible();
  await expect(page.getByLabel('Elevation of sites, m')).toHaveValue('1600');

  await choose('Customers, units and circuits', 'nearly-alike.csv');
  await page.getByLabel('Elevation of sites, m').fill('1600');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await page.getByRole('radio', { name: 'The same as Larkspur Foods' }).check();
  await look('nearly alike');
  await page.getByRole('button', { name: 'Check again with this answer' }).click();
  await expect(page.getByText('1 row would be entered')).toBeVisible();
});

test('what rests on an import is named; without it all is taken back', async () => {
  const back = async (file: string) => {
    await page.goto('/import');
    await page
      .getByRole('row', { name: new RegExp(`^${file} .*Entered`) })
      .getByRole('link')
      .click();
    await page.getByRole('button', { name: 'Take it back' }).click();
    await page.getByRole('group', { name: 'Take it back' }).getByRole('button', { name: 'Take it back' }).click();
  };
  await back('units.csv');
  await expect(page.getByRole('main').getByRole('alert')).toContainText('0417-A: work was recorded after the import.');
  await back('additions.csv');
  await expect(page.getByText('All of it is taken back.')).toBeVisible();
  await back('units.csv');
  await expect(page.getByText('All of it is taken back.')).toBeVisible();
  await page.goto('/units');
  await expect(page.getByText('No unit is known yet.')).toBeVisible();
});

test('cylinders and people come in, and go, as the rest does', async () => {
  const faults = listenForFaults(page);
  await choose('Cylinders', 'cylinders.csv');
  await expect(page.getByLabel('TW holds')).toHaveValue('tare');
  await expect(page.getByLabel('Additions without a name')).toHaveCount(0);
  await look('matching columns of cylinders');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await expect(page.getByRole('row', { name: /^Row 6 / })).toContainText('Larkspur Foods is not entered yet');
  await look('cylinders, one of a customer who is not entered');
  await page.getByRole('button', { name: 'Enter 4 rows' }).click();
  await expect(page.getByText('4 rows entered.')).toBeVisible();
  await page.goto('/cylinders');
  await expect(page.getByRole('rowheader', { name: /NR-7781/ })).toBeVisible();

  await choose('People with certificates', 'people.csv');
  await page.getByRole('button', { name: 'Check the rows' }).click();
  await expect(page.getByRole('row', { name: /^Row 2 / })).toContainText('Certificate of Rosa Quill: universal');
  await page.getByRole('button', { name: 'Enter 5 rows' }).click();
  await expect(page.getByText('5 rows entered.')).toBeVisible();
  await look('people entered');
  await page.goto('/people');
  await expect(page.getByText('Ines Marlow').first()).toBeVisible();

  await page.goto('/import');
  await page
    .getByRole('row', { name: /^people.csv / })
    .getByRole('link')
    .click();
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByRole('group', { name: 'Take it back' }).getByRole('button', { name: 'Take it back' }).click();
  await expect(page.getByText('All of it is taken back.')).toBeVisible();
  await page.goto('/people');
  await expect(page.getByText('Ines Marlow')).toHaveCount(0);
  expect(faults).toEqual([]);
});
