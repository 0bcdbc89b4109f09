import type { BrowserContext } from '@playwright/test';
import type { CylinderListView, UnitView } from '@ullage/contracts';
import { expect, PHONE, test } from './fixtures.ts';
import { aFirm, get, type Job, jobFor, joined, newId, workDone } from './parts/firm.ts';

/** Addresses that lead nowhere, asked for as any program asks: by HTTP, without running a script. */
let owner: BrowserContext;
let stranger: BrowserContext;
let job: Job;
let records: readonly string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Marram Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  stranger = await aFirm(browser, 'Farside Cooling');
  const unit = await get<UnitView>(owner, `/v1/units/${job.unitId}`);
  const [cylinder] = (await get<CylinderListView>(owner, '/v1/cylinders')).items;
  records = [
    `/units/${job.unitId}`,
    `/visits/${job.visitId}`,
    `/visits/${job.visitId}/record`,
    `/cylinders/${cylinder?.id}`,
    `/sheets/${unit.circuits[0]?.latest?.id}`,
  ];
});
test.afterAll(async () => {
  await owner.close();
  await stranger.close();
});

/** What differs by each request anyway: the nonce of the policy and the time. The id is in the address that was asked for. */
const blotted = (text: string): string =>
  text
    .replaceAll(/[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}/g, 'an id')
    .replaceAll(/"[A-Za-z0-9+/]{22}==/g, 'a nonce')
    .replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+Z/g, 'now');
/** Rows of the stream come in the order in which the server got round to them: the same rows are the same page. */
function alike(text: string): string {
  const rows: string[] = [];
  const rest = text.replaceAll(
    /<script[^>]*>self\.__next_f\.push\(\[1,("(?:[^"\\]|\\.)*")\]\)<\/script>/g,
    (_script, row: string) => {
      rows.push(JSON.parse(row) as string);
      return '';
    },
  );
  return blotted([rest, ...rows.join('').split('\n').sort()].join('\n'));
}

test('a record that is there answers 200; another contractor’s answers 404, byte for byte as one that nobody has', async () => {
  for (const path of records) {
    expect((await owner.request.get(path)).status(), path).toBe(200);
    const foreign = await stranger.request.get(path);
    const nobodys = await stranger.request.get(path.replace(/[0-9a-f-]{36}/, newId()));
    expect([foreign.status(), nobodys.status()], path).toEqual([404, 404]);
    const [one, other] = [alike(await foreign.text()), alike(await nobodys.text())];
    expect(one).toContain('There is nothing at this address.');
    expect(one, path).toBe(other);
    expect(foreign.headers()['content-type']).toBe(nobodys.headers()['content-type']);
  }
});

test('text that is no id, and an address that no screen has, answer 404 too', async () => {
  for (const path of ['/units/abc', '/cylinders/7', '/sheets/x', '/visits/x/record', '/nowhere'])
    expect((await owner.request.get(path)).status(), path).toBe(404);
});

test('it says so inside the frame, with the way on', async () => {
  const page = await owner.newPage();
  await page.goto(`/units/${newId()}`);
  await expect(page.getByRole('heading', { name: 'There is nothing at this address.' })).toBeVisible();
  await page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name: 'Units' }).click();
  await expect(page.getByRole('heading', { name: 'Units', level: 1 })).toBeVisible();
  await page.close();
});

test('a list shows its placeholder at once; on the way to a record the frame shows that the click was taken', async () => {
  expect(await (await owner.request.get('/units')).text()).toContain('Loading');
  const page = await owner.newPage();
  await page.goto('/units');
  let held = true;
  await page.route(`**/units/${job.unitId}*`, async (route) => {
    const isPrefetch = route.request().headers()['next-router-prefetch'] !== undefined;
    while (held && !isPrefetch) await new Promise((resolve) => setTimeout(resolve, 50));
    await route.continue();
  });
  await page.getByRole('link', { name: '0311-A' }).click();
  const going = page.getByRole('status').filter({ hasText: 'Opening the page' });
  await expect(going).toBeAttached();
  held = false;
  await expect(page.getByRole('heading', { name: /0311-A/ })).toBeVisible();
  await expect(going).toHaveCount(0);
  await page.close();
});
