import type { Page } from '@playwright/test';
import { expect, PHONE, test } from './fixtures.ts';
import { dayAt, dayWords, hourAt, morningZone } from './parts/days.ts';
import { certify, chooseAt, invite, joinBy, pressAt, typeAt } from './parts/desk.ts';
import { aFirm, command, lb, newId, PASSWORD } from './parts/firm.ts';
import { field, fill } from './parts/phone.ts';
import { workThrough } from './parts/visit.ts';

/** One job from the call to the return visit, told once: each part goes on where the one before it ended. */
test.describe.configure({ mode: 'serial' });
test.use({ trace: 'off' });

const zone = morningZone();
const tale = newId().slice(-6);
const mail = (name: string): string => `${name}.${tale}@brightwater.example`;
const PEOPLE = [
  ['manager', 'Anselm Roe', 'Manager'],
  ['dispatcher', 'Pia Garnet', 'Dispatcher'],
  ['keeper', 'Cal Dunmore', 'Warehouse keeper'],
  ['technician', 'Rosa Quill', 'Technician'],
  ['apprentice', 'Teo Finch', 'Technician'],
  ['auditor', 'Lotte Marsh', 'Auditor'],
] as const;
type Who = (typeof PEOPLE)[number][0] | 'owner';
const pages = new Map<Who, Page>();
function at(who: Who): Page {
  const page = pages.get(who);
  if (!page) throw new Error(`${who} has not signed in`);
  return page;
}
let unitUrl = '';
let visitUrl = '';
let callUrl = '';

test.afterAll(async () => {
  for (const page of pages.values()) await page.context().close();
});

test('an owner signs up, names the contractor and invites six people by links; each joins and signs in', async ({
  browser,
}) => {
  const owner = await (await browser.newContext()).newPage();
  pages.set('owner', owner);
  await owner.goto('/sign-up');
  await owner.getByLabel('Contractor').fill(`Brightwater ${tale}`);
  await owner.getByLabel('Time zone').selectOption(zone);
  await owner.getByLabel('Your name').fill('Orla Hythe');
  await owner.getByLabel('E-mail').fill(mail('owner'));
  await owner.getByLabel('Password').fill(PASSWORD);
  await owner.getByRole('button', { name: 'Start' }).click();
  await owner.getByRole('link', { name: 'People' }).click();
  for (const [who, name, role] of PEOPLE) {
    const link = await invite(owner, { email: mail(who), role });
    pages.set(who, await joinBy(browser, { name, email: mail(who), link }, role === 'Technician' ? PHONE : {}));
  }
  await owner.reload();
  await expect(owner.getByText('No invitation waits.')).toBeVisible();
  await certify(owner, 'Rosa Quill', { type: 'Type II, high pressure', registeredOn: '2024-05-06' });
  await certify(owner, 'Teo Finch', { type: 'Registered apprentice', registeredOn: dayAt(zone, -100) });
  await expect(owner.getByRole('row', { name: /Rosa Quill/ })).toContainText('Type II');
});

test('the dispatcher takes the call by keyboard alone: at most 14 fields, 6 of them required', async () => {
  const page = at('dispatcher');
  await page.goto('/returns');
  await pressAt(page, page.getByRole('link', { name: 'Take a call' }));
  const form = callForm(page);
  await expect(form).toBeVisible();
  const andPastAdditions = 1;
  expect((await form.locator('label').count()) + andPastAdditions).toBeLessThanOrEqual(14);
  await pressAt(page, callButton(page, 'Take the call'));
  await expect(form.getByRole('alert').getByRole('listitem'), 'what a call cannot do without').toHaveCount(6);
  await theCall(page);
  await expect(page).toHaveURL(/\/returns\?visit=/);
  visitUrl = `/field/visits/${new URL(page.url()).searchParams.get('visit')}`;
  await expect(page.getByRole('complementary', { name: 'The chosen visit' })).toContainText('Cases warm');
});

/** An open list hides what is around it from assistive tools; it is found all the same. */
const callForm = (page: Page) => page.getByRole('form', { name: 'Take a call', includeHidden: true });
const callButton = (page: Page, name: string) => callForm(page).getByRole('button', { name, includeHidden: true });

async function theCall(page: Page): Promise<void> {
  const form = callForm(page);
  const field = (label: string) =>
    form.getByLabel(new RegExp(`^${label}( \\(optional\\))?$`)).and(page.locator('input, textarea, select'));
  await page.locator('body').press('Home');
  await typeAt(page, field('Customer'), 'Larkspur Foods');
  await typeAt(page, field('Site address'), '14 Quarry Bend, Dunmoor');
  await typeAt(page, field('Elevation'), '1600');
  await typeAt(page, form.getByLabel('Unit of Elevation'), 'm');
  await typeAt(page, field('Contact'), 'Ines Varga, 555 0142');
  await typeAt(page, field('Access'), 'Roof key at the office.');
  await typeAt(page, field('Unit'), '0417');
  await typeAt(page, field('What it is'), 'Dairy rack');
  await typeAt(page, field('Refrigerant'), '448a');
  await chooseAt(page, field('Use'), /^Commercial refrigeration/);
  await typeAt(page, field('Full charge'), '220');
  await chooseAt(page, field('Figure from'), /maker/i);
  await typeAt(page, field('What is wrong'), 'Short of gas again. Cases warm.');
  for (const [at, day, mass] of [
    [1, '75 days ago', '18'],
    [2, '200 days ago', ''],
  ] as const) {
    await pressAt(page, callButton(page, 'Add a past addition'));
    const row = form.getByRole('listitem', { name: `Past addition ${at}` });
    await expect(row.getByLabel('Day')).toBeFocused();
    await page.keyboard.type(day);
    await typeAt(page, row.getByLabel(/^Mass/), mass);
    await chooseAt(page, row.getByLabel('By'), /Somebody else/);
  }
  await pressAt(page, callButton(page, 'Take the call'));
}

test('the unit page shows 8.18 % with its arithmetic and the headroom of 9.04 lb', async () => {
  const page = at('dispatcher');
  callUrl = page.url();
  await page.getByRole('link', { name: 'Units' }).click();
  await page.getByRole('link', { name: '0417-A' }).click();
  await expect(page.getByRole('heading', { name: /0417-A/ })).toBeVisible();
  unitUrl = page.url();
  // 18 / 220 over 365 days is 8.18 %; 20 % of 220 lb x 75 / 365 is 9.04 lb (40 CFR 84.106(b)).
  const rate = page.getByRole('region', { name: 'Leak rate' });
  await expect(rate).toContainText('8.18 % a year, not over 20 %');
  await expect(rate).toContainText('First calculation under the rule: 365 days stand in for the days that passed.');
  await expect(rate).toContainText('40 CFR 84.106');
  await expect(page.getByRole('region', { name: 'Headroom' })).toContainText('More than 9.04 lb today');
  await expect(page.getByText('1,600 m')).toBeVisible();
});

test('the apprentice alone is refused by law; the certified technician is placed today', async () => {
  const page = at('dispatcher');
  await page.goto(callUrl);
  const form = page.getByRole('form', { name: 'Place the visit' });
  await chooseAt(page, form.getByLabel('Day'), /^Today/);
  await typeAt(page, form.getByLabel('Time'), hourAt(zone, 1));
  await chooseAt(page, form.getByLabel('Technician'), /^Teo Finch/);
  await pressAt(page, form.getByRole('button', { name: 'Place it' }));
  const refusal = page.getByRole('alert').filter({ hasText: 'Teo Finch' });
  await expect(refusal).toContainText('An apprentice works only beside a certified technician');
  await expect(refusal).toContainText(/Law, 40 CFR 82\.152.*82\.161\(a\): cannot be overridden/);
  await expect(refusal.getByRole('button')).toHaveCount(0);
  expect(
    await refusal.evaluate((element) => parseFloat(getComputedStyle(element).borderLeftWidth)),
    'heavy edge',
  ).toBeGreaterThan(2);
  await chooseAt(page, form.getByLabel('Technician'), /^Rosa Quill/);
  await pressAt(page, form.getByRole('button', { name: 'Place it' }));
  await expect(form.getByRole('button', { name: 'Move it' })).toBeVisible();
  await page.evaluate(() => Reflect.set(window, 'neverReloaded', true));
});

test('the keeper registers a cylinder of new gas', async () => {
  const page = at('keeper');
  await page.goto('/cylinders/new');
  await page.getByRole('radio', { name: /^Refillable/ }).check();
  await fill(page, 'Serial', 'NG-2207');
  await fill(page, 'Specification', 'DOT-4BA400');
  await fill(page, 'Water capacity', '123');
  await fill(page, 'Tare', '55');
  await fill(page, 'Last test', dayAt(zone, -500).slice(0, 7));
  await page.getByRole('radio', { name: /^Gas is in it/ }).check();
  await field(page, 'Gas').selectOption('R-448A');
  await field(page, 'State of the gas').selectOption('new');
  await fill(page, 'Gross weight', '160');
  await page.getByRole('button', { name: 'Register cylinder' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('NG-2207');
  await expect(page.getByRole('region', { name: 'What is in it' })).toContainText('R-448A');
});

test('the phone shows the past and the headroom at a glance, and the visit is worked through', async () => {
  test.setTimeout(150_000);
  const page = at('technician');
  await page.goto('/field');
  await page.getByRole('button', { name: 'Open 0417-A' }).click();
  await expect(page.getByText('More than 9.04 lb today')).toBeVisible();
  for (const what of ['Last gas added', 'Leak points', 'Last clear looks'])
    await expect(page.getByRole('heading', { name: what })).toBeInViewport({ ratio: 1 });
  const isShort = await page.locator('main').evaluate((main) => main.scrollHeight <= main.clientHeight);
  expect(isShort, 'nothing to scroll').toBe(true);
  await workThrough(page);
});

test('the books: 39.82 % over 20 %, duties with dates, and a cylinder in doubt', async () => {
  const page = at('manager');
  await page.goto(unitUrl);
  const rate = page.getByRole('region', { name: 'Leak rate' });
  await expect(rate).toContainText('39.82 % a year, over 20 %');
  const duties = page.getByRole('region', { name: 'Duties' });
  await expect(duties).toContainText(`by ${dayWords(dayAt(zone, 30))}`);
  await expect(duties).toContainText(`by ${dayWords(dayAt(zone, 10))}`);
  await expect(duties).toContainText('40 CFR 84.106');
  await page.goto('/cylinders?doubt=doubted');
  await expect(page.getByRole('row', { name: /TB-30811/ })).toContainText(/suspected air/i);
  await page.getByRole('link', { name: 'TB-30811' }).click();
  await expect(page.getByRole('region', { name: 'Doubts about its gas' })).toContainText(/suspected air/i);
});

test('the return visit stands on the board without a reload, and is placed by keyboard inside its window', async () => {
  const page = at('dispatcher');
  const list = page.getByRole('list', { name: /^Return visits/ });
  await expect(list).toContainText('0417-A');
  await expect(list.getByRole('img', { name: /0417-A: window opened .*legal edge/ })).toBeVisible();
  await secondStop(page);
  await pressAt(page, list.getByRole('link', { name: /0417-A/ }));
  const form = page.getByRole('form', { name: 'Place the visit' });
  await chooseAt(page, form.getByLabel('Day'), /after the legal edge/);
  await typeAt(page, form.getByLabel('Time'), '10:00');
  await chooseAt(page, form.getByLabel('Technician'), /^Rosa Quill/);
  await pressAt(page, form.getByRole('button', { name: 'Place it' }));
  const refusal = page.getByRole('complementary', { name: 'The chosen visit' }).getByRole('alert');
  await expect(refusal).toContainText(/Ends after the last legal day.*Law, 40 CFR 84\.106.*: cannot be overridden/s);
  await chooseAt(page, form.getByLabel('Day'), new RegExp(`\\b${Number(dayAt(zone, 3).slice(8))}\\b`));
  await pressAt(page, form.getByRole('button', { name: 'Place it' }));
  await expect(refusal).toContainText(/Our own rule, nobody is in two places at once: it can be overridden/);
  await pressAt(page, refusal.getByRole('button', { name: 'Override, with a reason' }));
  await page.keyboard.type('The other stop is next door.');
  await pressAt(page, refusal.getByRole('button', { name: 'Override' }));
  await expect(
    page.getByText('Overridden, nobody is in two places at once: The other stop is next door.'),
  ).toBeVisible();
  expect(await page.evaluate(() => Reflect.get(window, 'neverReloaded'))).toBe(true);
});

/** Another stop of the technician's in three days, at the very time that will be asked for. */
async function secondStop(page: Page): Promise<void> {
  const context = page.context();
  const me = await (await at('technician').context().request.get('/v1/me')).json();
  const visitId = newId();
  const charge = { mass: lb('40'), method: 'manufacturer' };
  const circuit = { refrigerant: 'R-448A', use: 'commercial-refrigeration', fullCharge: charge };
  await command(context, 'take-call', {
    customer: { id: newId(), new: { name: 'Tidewell Stores' } },
    site: { id: newId(), new: { address: '2 Ferry Row, Dunmoor', timeZone: zone, elevationM: 1600 } },
    unit: { id: newId(), new: { tag: '0900' } },
    circuit: { id: newId(), new: circuit },
    history: [],
    visit: { id: visitId, symptom: 'Ice on the coil.' },
  });
  const stop = { visitId, version: 1, personId: me.person.id, day: dayAt(zone, 3), time: '10:00', minutes: 60 };
  await command(context, 'place-visit', stop);
}

const ACTS =
  /^(Place it|Suggest|Move it|Take it off the plan|Override|Take a call|Take the call|Register|Invite|Certificate|Sign-in|Try again|Leave it out|Looked at|Withdraw)/;
test('the auditor reads all of it and has nothing to act with', async () => {
  const page = at('auditor');
  for (const path of [
    '/returns',
    '/units',
    unitUrl,
    '/cylinders',
    '/books',
    '/attention',
    visitUrl.replace('/field', ''),
  ]) {
    await page.goto(path);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    const acts = page.getByRole('button', { name: ACTS }).or(page.getByRole('link', { name: ACTS }));
    await expect(acts, path).toHaveCount(0);
  }
});

test('another tenant’s owner sees at the unit’s address what stands at no address', async ({ browser }) => {
  const stranger = await (await aFirm(browser, 'Farside Cooling')).newPage();
  const nowhere = unitUrl.replace(/[0-9a-f-]{36}/, newId());
  const seen: unknown[] = [];
  for (const url of [unitUrl, nowhere]) {
    const status = (await stranger.goto(url))?.status();
    await expect(stranger.getByRole('heading', { name: 'There is nothing at this address.' })).toBeVisible();
    const asked = await stranger.request.get(url.replace('/units/', '/v1/units/'));
    expect(asked.status()).toBe(404);
    seen.push({
      status,
      title: await stranger.title(),
      page: await stranger.locator('body').innerText(),
      api: await asked.text(),
    });
  }
  expect(seen[0]).toEqual(seen[1]);
  await stranger.context().close();
});
