import type { Browser, Page } from '@playwright/test';
import type { ReturnsView } from '@ullage/contracts';
import { expect, PHONE, test } from './fixtures.ts';
import { dayAt, dayWords } from './parts/days.ts';
import { aFirm, command, get, jobFor, joined, workDone, type Job } from './parts/firm.ts';
import { choose, pick, save } from './parts/phone.ts';

/** The repair is proven again within ten days of normal operation, on the phone, while the board stands open. */
async function followUp(browser: Browser, result: 'Pass' | 'Fail'): Promise<{ desk: Page; job: Job }> {
  const owner = await aFirm(browser, 'Gannet Row Cooling');
  const technician = await joined(browser, owner, { name: 'Rosa Quill', role: 'technician', options: PHONE });
  const job = await jobFor(owner, technician);
  await workDone(technician, job);
  const seen = {
    allPartsSeen: true,
    inaccessible: [],
    methods: ['electronic'],
    result: 'leak-found',
    leakPointIds: [],
  };
  await command(technician, 'record-inspection', { visitId: job.visitId, circuitId: job.circuitId, ...seen });
  const desk = await owner.newPage();
  await desk.goto('/returns');
  const list = desk.getByRole('list', { name: /^Return visits/ });
  await expect(list.getByText(/follow-up/i)).toBeVisible();
  const [item] = (await get<ReturnsView>(owner, '/v1/returns')).items;
  const { id: visitId, version } = item!.visit;
  const moment = { day: dayAt(job.zone, 1), time: '10:00', minutes: 45 };
  await command(owner, 'place-visit', { visitId, version, personId: job.personId, ...moment });

  const phone = await technician.newPage();
  await phone.goto(`/field/visits/${visitId}`);
  await phone.getByRole('button', { name: /^I am here/ }).click();
  await phone.goto(`/field/visits/${visitId}/test`);
  await expect(phone.getByRole('heading', { name: 'Follow-up verification', level: 1 })).toBeVisible();
  await pick(phone, 'Method', 'Electronic detector');
  await choose(phone, 'Result', result);
  await save(phone, 'Save the test', /follow-up/i);
  await command(technician, 'finish-visit', { visitId });
  await phone.close();
  return { desk, job };
}

test('passed: off the list without a reload, and next year’s inspection stands', async ({ browser }) => {
  const { desk, job } = await followUp(browser, 'Pass');
  await expect(desk.getByText('No circuit is waiting for a return visit.')).toBeVisible();
  await desk.goto(`/units/${job.unitId}`);
  // 40 CFR 84.106(g): below 500 lb once a year, counted from the successful follow-up test.
  await expect(desk.getByText(/Periodic leak inspection/).first()).toBeVisible();
  await expect(desk.getByText('Verified', { exact: true }).first()).toBeVisible();
  await desk.context().close();
});

test('failed: the repair is open again with its original date', async ({ browser }) => {
  const { desk, job } = await followUp(browser, 'Fail');
  const list = desk.getByRole('list', { name: /^Return visits/ });
  await expect(list.getByText(/repair/i).first()).toBeVisible();
  await desk.goto(`/units/${job.unitId}`);
  // 40 CFR 84.106(d): thirty days from the addition, not from the failed test.
  await expect(desk.getByRole('main')).toContainText(`Repair by ${dayWords(dayAt(job.zone, 30))}`);
  await desk.context().close();
});
