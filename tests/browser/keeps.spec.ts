import type { BrowserContext, Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { type Control, controlsOf, enterAndClose } from './parts/controls.ts';
import { aFirm, command, type Job, jobFor, joined, lb, newId } from './parts/firm.ts';

test.use({ trace: 'off' });

let phone: BrowserContext;
let job: Job;
let idle: Page;
test.beforeAll(async ({ browser }) => {
  const owner = await aFirm(browser, 'Saltmarsh Cooling');
  phone = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, phone);
  await somethingRecorded(phone, job);
  idle = await phone.newPage();
  await idle.goto('/sign-in');
});
test.afterAll(() => phone.close());

/** A leak that waits, one that is repaired, and a charge: so that every list that can be ticked or put right has a row. */
async function somethingRecorded(technician: BrowserContext, { visitId, circuitId }: Job): Promise<void> {
  const on = { visitId, circuitId };
  const [waits, repaired, cylinderId] = [newId(), newId(), newId()];
  await command(technician, 'arrive', { visitId });
  for (const leakPointId of [waits, repaired])
    await command(technician, 'record-leak-point', { ...on, leakPointId, place: 'flare-nut', where: 'Case 7' });
  const repair = { leakPointIds: [repaired], what: 'New flare', opened: false, drierChanged: false };
  await command(technician, 'record-repair', { ...on, ...repair });
  const stamps = { specification: 'DOT-4BA400', serial: 'NG-41', waterCapacity: lb('123'), tare: lb('55') };
  const gas = { refrigerant: 'R-448A', state: 'new', gross: lb('160') };
  await command(technician, 'register-cylinder', {
    cylinderId,
    kind: 'refillable',
    testedMonth: '2025-06',
    ...stamps,
    gas,
  });
  const weights = { before: lb('160'), after: lb('158'), full: 'no' };
  await command(technician, 'record-charge', { ...on, cylinderId, ...weights });
  await command(technician, 'register-instrument', { instrumentId: newId(), kind: 'detector', tag: 'D-14' });
}

async function open(step: string): Promise<Page> {
  const page = await phone.newPage();
  await page.goto(`/field/visits/${job.visitId}/${step}`);
  await page.getByText(/^All steps/).waitFor();
  return page;
}

/** What a finger can do next that shows further fields. */
const OPENERS = [
  /^Another (leak point|repair|charge|option|reading)$/,
  /^A part that could not be reached$/,
  /^Find$/,
  /^Register half a word here$/,
  /^New (detector|gauge|vacuum gauge)$/,
];
/** Where weights are put right, their form stands alone. */
const openersAt = (step: string): readonly RegExp[] => (step === 'leave' ? [...OPENERS, /^Correct /] : OPENERS);

async function openMore(page: Page, step: string, opened: Set<string>): Promise<boolean> {
  for (const name of openersAt(step).filter((one) => !opened.has(one.source))) {
    const button = page.getByRole('button', { name }).first();
    if (!(await button.isVisible())) continue;
    opened.add(name.source);
    await button.click();
    if (name.source === '^Find$') await page.getByText('is known.').waitFor();
    return true;
  }
  return false;
}

const ORDER = ['text', 'list', 'tick', 'answer'] as const;
/** Ticks of a long list behave alike, and so do the keys of a unit and the answers to a question: a few of each are tried. */
const most = ({ key, kind }: Control): number => (key.startsWith('Unit of ') ? 1 : kind === 'answer' ? 3 : ticks(key));
const ticks = (key: string): number => (/^(Places covered|Methods used): /.test(key) ? 2 : Infinity);
const groupOf = ({ key }: Control): string => key.slice(0, key.indexOf(': ') + 2);
function nextUntried(controls: readonly Control[], tried: readonly string[]): Control | undefined {
  const isEnough = (one: Control): boolean => tried.filter((key) => key.startsWith(groupOf(one))).length >= most(one);
  const fresh = controls.filter((one) => !tried.includes(one.key) && one.wanted !== one.value && !isEnough(one));
  // What is typed comes before what may hide it again.
  return ORDER.map((kind) => fresh.findLast((one) => one.kind === kind)).find((one) => one !== undefined);
}

/** Goes through a step's controls: enters, closes in the same task, opens again, and finds all that was entered so far. */
async function everyField(step: string): Promise<readonly string[]> {
  const tried: string[] = [];
  const kept = new Map<string, Control>();
  const opened = new Set<string>();
  let page = await open(step);
  for (;;) {
    const controls = await controlsOf(page);
    const control = nextUntried(controls, tried);
    if (!control) {
      if (await openMore(page, step, opened)) continue;
      await page.close();
      return tried;
    }
    await enterAndClose(page, control.key);
    tried.push(control.key);
    for (const [key, one] of kept) if (control.oneOf !== null && one.oneOf === control.oneOf) kept.delete(key);
    kept.set(control.key, control);
    page = await open(step);
    await expectKept(page, kept, control.key);
  }
}

async function expectKept(page: Page, kept: ReadonlyMap<string, Control>, last: string): Promise<void> {
  const here = await controlsOf(page);
  expect(
    here.map(({ key }) => key),
    'the field that was left is on the screen',
  ).toContain(last);
  for (const { key, value } of here) {
    const one = kept.get(key);
    if (one) expect(value, `${key}, after leaving ${last}`).toBe(one.wanted);
  }
}

const STEPS = [
  ['safety', 9],
  ['detector', 8],
  ['readings', 12],
  ['looks', 14],
  ['leaks', 6],
  ['consent', 8],
  ['recovery', 24],
  ['repair', 9],
  ['test', 13],
  ['vacuum', 9],
  ['charge', 18],
  ['inspection', 5],
  ['closing', 12],
  ['leave', 6],
] as const;

for (const [step, least] of STEPS)
  test(`${step}: what was entered is there after the page was closed in the same task`, async () => {
    await idle.evaluate(() => localStorage.clear());
    const tried = await everyField(step);
    expect(tried.length, tried.join('\n')).toBeGreaterThanOrEqual(least);
  });

test('what cannot be sent waits on the phone, is shown there, and goes out once', async () => {
  await idle.evaluate(() => localStorage.clear());
  let isAway = true;
  const arrived: string[] = [];
  await phone.route('**/v1/sync/push', (route) => {
    if (isAway) return route.abort();
    arrived.push(
      ...(route.request().postDataJSON() as { commands: { id: string; schema: string }[] }).commands.map(
        ({ id }) => id,
      ),
    );
    return route.continue();
  });
  const before = await open('safety');
  for (const check of await before.getByRole('checkbox').all()) await check.check();
  await before.getByRole('button', { name: 'Safe to work' }).click();
  await expectWaiting(before);
  await before.close();
  const page = await open('safety');
  await expectWaiting(page);
  isAway = false;
  await page.evaluate(() => dispatchEvent(new Event('online')));
  await expect(page.getByText('nothing left on this phone')).toBeVisible();
  await page.reload();
  await expect(page.getByRole('list', { name: 'Recorded' }).getByRole('listitem')).toHaveCount(1);
  await expect(page.getByText('waits on this phone')).toHaveCount(0);
  expect(arrived).toHaveLength(1);
  await phone.unroute('**/v1/sync/push');
});

async function expectWaiting(page: Page): Promise<void> {
  await expect(page.getByRole('list', { name: 'Recorded' })).toContainText(
    /Safe to work: all five checks.*waits on this phone/s,
  );
  await expect(page.getByText(/^No signal since/)).toBeVisible();
  await expect(page.getByText('1 note safe on this phone')).toBeVisible();
}
