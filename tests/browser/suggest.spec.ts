import type { BrowserContext, Locator, Page } from '@playwright/test';
import type { ReturnsView, SuggestionsView } from '@ullage/contracts';
import { AXIS_PX, slackX } from '../../apps/board/src/pictures/slack-axis.ts';
import { expect, expectAxeClean, expectNoSideways, listenForFaults, PHONE, test } from './fixtures.ts';
import { dayAt } from './parts/days.ts';
import { pressAt } from './parts/desk.ts';
import { aFirm, command, get, jobFor, joined, lb, newId, workDone, type Job } from './parts/firm.ts';

/** A return visit is placed by suggestion and by drag: either way the one command is sent that the form sends. */
let owner: BrowserContext;
let job: Job;
let desk: Page;
let faults: string[];
test.beforeAll(async ({ browser }) => {
  owner = await aFirm(browser, 'Plover Field Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  job = await jobFor(owner, technician);
  await workDone(technician, job);
  await technician.close();
  const registeredOn = dayAt(job.zone, -100);
  const apprentice = [{ id: newId(), scheme: 'us-608', type: 'apprentice', registeredOn }];
  await command(owner, 'register-person', { personId: newId(), name: 'Teo Finch', certificates: apprentice });
  await anotherStop();
  desk = await owner.newPage();
  faults = listenForFaults(desk);
});
test.afterAll(() => owner.close());

const followUp = async (): Promise<ReturnsView['items'][number]> => {
  const { items } = await get<ReturnsView>(owner, '/v1/returns');
  return items.find(({ visit }) => visit.purpose === 'follow-up')!;
};
/** So many working days from today. */
function workday(ahead: number): string {
  let day = '';
  for (let i = 1, left = ahead; left > 0; i++) {
    day = dayAt(job.zone, i);
    if (![0, 6].includes(new Date(`${day}T12:00:00Z`).getUTCDay())) left--;
  }
  return day;
}
/** Work of the technician's in three working days: a day on which another visit drives less. */
async function anotherStop(): Promise<void> {
  const visitId = newId();
  await command(owner, 'take-call', {
    customer: { id: newId(), new: { name: 'Tidewell Stores' } },
    site: { id: newId(), new: { address: '2 Ferry Row, Dunmoor', timeZone: job.zone, elevationM: 1600 } },
    unit: { id: newId(), new: { tag: '0900' } },
    circuit: {
      id: newId(),
      new: {
        refrigerant: 'R-448A',
        use: 'commercial-refrigeration',
        fullCharge: { mass: lb('40'), method: 'manufacturer' },
      },
    },
    history: [],
    visit: { id: visitId, symptom: 'Ice on the coil.' },
  });
  const moment = { day: workday(3), time: '09:00', minutes: 60 };
  await command(owner, 'place-visit', { visitId, version: 1, personId: job.personId, ...moment });
}
async function takeOff(): Promise<void> {
  const { visit } = await followUp();
  if (visit.state === 'placed') await command(owner, 'unplace-visit', { visitId: visit.id, version: visit.version });
}

const row = (): Locator =>
  desk
    .getByRole('list', { name: /^Return visits/ })
    .getByRole('listitem')
    .filter({ hasText: /follow-up/i })
    .getByRole('link', { name: /0311-A/ });
const form = (): Locator => desk.getByRole('form', { name: 'Place the visit' });
async function open(): Promise<void> {
  await takeOff();
  await desk.setViewportSize({ width: 1440, height: 900 });
  await desk.goto(`/returns?visit=${(await followUp()).visit.id}`);
  await expect(form().getByRole('heading', { name: 'Place it' })).toBeVisible();
}

test.describe('suggest', () => {
  test.beforeEach(open);

  test('by keyboard alone: the offers with their reasons, the arrows, and Enter places', async () => {
    const { visit } = await followUp();
    const { offers } = await get<SuggestionsView>(owner, `/v1/visits/${visit.id}/suggestions`);
    expect(
      offers.map(({ driveMinutes }) => driveMinutes),
      'a way of its own, and beside another stop',
    ).toEqual([60, 30]);
    const sent: string[] = [];
    desk.on('request', (request) => request.url().includes('/v1/commands/') && sent.push(request.url()));
    await pressAt(desk, form().getByRole('button', { name: 'Suggest', exact: true }));
    const choices = form().getByRole('group', { name: 'Suggested' }).getByRole('radio');
    await expect(choices).toHaveCount(2);
    await expect(choices.first()).toBeFocused();
    await expect(choices.first()).toBeChecked();
    const why = form().getByRole('list', { name: /^Why / });
    await expect(why).toContainText('Nobody who may go is free sooner.');
    await expect(why).toContainText(/Leaves \d+ d.* of slack before the legal edge\./);
    await desk.keyboard.press('ArrowDown');
    await expect(why).toContainText('Drives 30 min more, before the stop at 2 Ferry Row, Dunmoor.');
    await expect(why).toContainText('No other moment drives less.');
    await expect(desk.getByRole('img', { name: /Rosa Quill: .* 3 visits/ }), 'drawn in her week').toBeVisible();
    await desk.keyboard.press('Enter');
    await expect(form().getByRole('button', { name: 'Move it' })).toBeVisible();
    expect(sent.map((url) => new URL(url).pathname)).toEqual(['/v1/commands/place-visit']);
    expect((await followUp()).visit).toMatchObject({ state: 'placed', startsAt: offers[1]!.startsAt });
    await expect(form().getByRole('group', { name: 'Suggested' })).toHaveCount(0);
  });

  test('says whom the law leaves out', async () => {
    await form().getByRole('button', { name: 'Suggest', exact: true }).click();
    await form().getByText('1 person left out by law').click();
    await expect(form()).toContainText('Teo Finch. An apprentice works only beside a certified technician');
  });

  test('of an offer that somebody else was faster with, the winner is named', async () => {
    await desk.route('**/v1/changes/stream*', (route) => route.abort());
    await desk.route('**/v1/returns', (route) => route.abort());
    await desk.reload();
    await form().getByRole('button', { name: 'Suggest', exact: true }).click();
    await expect(form().getByRole('radio').first()).toBeChecked();
    const { visit } = await followUp();
    const moment = { day: workday(2), time: '13:00', minutes: 45 };
    await command(owner, 'place-visit', {
      visitId: visit.id,
      version: visit.version,
      personId: job.personId,
      ...moment,
    });
    await form().getByRole('button', { name: 'Place it' }).click();
    const lost = desk.getByRole('alert').filter({ hasText: 'Somebody was faster' });
    await expect(lost).toContainText(/Placed already: Rosa Quill, .*13:00/);
    await desk.unrouteAll();
    faults.length = 0;
  });

  test('an offer goes when the visit is changed under it', async () => {
    await form().getByRole('button', { name: 'Suggest', exact: true }).click();
    await expect(form().getByRole('radio').first()).toBeChecked();
    const { visit } = await followUp();
    const moment = { day: workday(2), time: '13:00', minutes: 45 };
    await command(owner, 'place-visit', {
      visitId: visit.id,
      version: visit.version,
      personId: job.personId,
      ...moment,
    });
    await expect(form().getByRole('status')).toContainText('Somebody changed this visit meanwhile');
    await expect(form().getByRole('radio')).toHaveCount(0);
  });

  test('keeps to the accessibility rules, at a desk and at a phone’s width', async () => {
    await form().getByRole('button', { name: 'Suggest', exact: true }).click();
    await form().getByText('1 person left out by law').click();
    await expectAxeClean(desk, 'suggestions at a desk');
    await desk.setViewportSize(PHONE.viewport);
    await expectAxeClean(desk, 'suggestions at a phone’s width');
    await expectNoSideways(desk);
  });
});

/** Takes the row in hand and brings it over a person's week, so many days from today and at an hour. */
async function dragTo(person: string, ahead: number, hour: number): Promise<void> {
  // The drag is loaded with the first move of a mouse that the page hears.
  await expect(async () => {
    await desk.mouse.move(600, 700);
    await desk.mouse.move(700, 700);
    await expect(row()).toHaveAttribute('draggable', 'true', { timeout: 500 });
  }).toPass();
  const from = (await row().boundingBox())!;
  await desk.mouse.move(from.x + 10, from.y + 8);
  await desk.mouse.down();
  await desk.mouse.move(from.x + 30, from.y + 20, { steps: 4 });
  const week = desk
    .getByRole('list', { name: 'Technicians and their week' })
    .getByRole('listitem')
    .filter({ hasText: person })
    .first()
    .locator('[data-person]');
  const to = (await week.boundingBox())!;
  const x = to.x + (to.width * slackX(ahead + hour / 24)) / AXIS_PX;
  await desk.mouse.move(x, to.y + 12, { steps: 8 });
}
const note = (text: string | RegExp): Locator =>
  desk.locator('main [aria-hidden="true"]').filter({ hasText: text }).last();

test.describe('drag', () => {
  test.beforeEach(open);

  test('dropped on a free moment of a day, it is placed there', async () => {
    await dragTo('Rosa Quill', 1, 10.5);
    await expect(note(/10:30, Rosa Quill/)).toBeVisible();
    await desk.mouse.up();
    await expect(form().getByRole('button', { name: 'Move it' })).toBeVisible();
    const { visit } = await followUp();
    expect(visit).toMatchObject({ state: 'placed', people: [{ name: 'Rosa Quill' }] });
    const local = new Intl.DateTimeFormat('sv-SE', { dateStyle: 'short', timeStyle: 'short', timeZone: job.zone });
    expect(local.format(new Date(visit.startsAt!))).toBe(`${dayAt(job.zone, 1)} 10:30`);
  });

  test('what the law forbids is said while it is in hand, and dropped all the same it is refused', async () => {
    await dragTo('Teo Finch', 1, 10.5);
    await expect(note(/10:30, Teo Finch/)).toContainText(
      /An apprentice works only beside.*Law, 40 CFR 82\.152.*cannot be overridden/,
    );
    await desk.mouse.up();
    const refusal = desk.getByRole('alert').filter({ hasText: 'Teo Finch' });
    await expect(refusal).toContainText('An apprentice works only beside a certified technician');
    await expect(refusal.getByRole('button')).toHaveCount(0);
    expect((await followUp()).visit.state).toBe('proposed');
  });

  test('a rule of our own bends after the drop, in the same card as ever', async () => {
    await dragTo('Rosa Quill', 1, 17.5);
    await expect(note(/17:30, Rosa Quill/)).toContainText(/outside the working day.*it bends to a reason/);
    await desk.mouse.up();
    const refusal = desk.getByRole('alert').filter({ hasText: 'Rosa Quill' });
    await refusal.getByRole('button', { name: 'Override, with a reason' }).click();
    await refusal.getByLabel('Reason').fill('Open only then.');
    await refusal.getByRole('button', { name: 'Override', exact: true }).click();
    await expect(desk.getByRole('complementary').getByText(/overridden.*Open only then\./i)).toBeVisible();
    await expect.poll(async () => (await followUp()).visit.state).toBe('placed');
  });

  test('let go beside the weeks, nothing is asked and nothing stays drawn', async () => {
    await dragTo('Rosa Quill', 2, 9);
    await expect(note(/09:00, Rosa Quill/)).toBeVisible();
    await desk.mouse.move(1300, 200, { steps: 4 });
    await desk.mouse.up();
    await expect(desk.locator('[data-verdict]')).toHaveCount(0);
    expect((await followUp()).visit.state).toBe('proposed');
    await expect(form().getByLabel('Time')).toHaveValue('');
  });

  test('no page fault', () => expect(faults.filter((fault) => !fault.includes('422'))).toEqual([]));
});
