/** The books of a period as files, and what is refused before they are added up. */
import { createOffice } from '@ullage/casework';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { beforeAll, expect, test } from 'vitest';
import { aFirm, expectOk } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { newId, runApi } from '../support/api-run.ts';

const calendar = makeCalendar(Temporal);
const api = await runApi({
  office: ({ database, clock }) =>
    createOffice({ database, calendar, now: () => clock.now(), newId: () => clock.newId() }),
});
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
  const mass = (value: string) => ({ value, unit: 'lb' });
  const cylinder = {
    ...{ cylinderId: newId(), kind: 'refillable', specification: 'DOT-4BA400', serial: 'C-1001' },
    ...{ waterCapacity: mass('47.7'), tare: mass('28') },
    gas: { refrigerant: 'R-448A', state: 'new', gross: mass('68') },
  };
  await expectOk(firm.of.warehouse.post('/v1/commands/register-cylinder', { body: cylinder }));
});

test('the CSV file has a line a gas and says its name and days', async () => {
  const file = await firm.of.auditor.get('/v1/books/period.csv');
  expect([file.status, file.headers['content-type']]).toEqual([200, 'text/csv; charset=utf-8']);
  expect(file.headers['content-disposition']).toMatch(/^attachment; filename="books-\d{4}-01-01-to-\d{4}-12-31\.csv"$/);
  const [head, line, end] = file.text.split('\r\n');
  expect(head).toContain('Refrigerant,Opening in cylinders (g)');
  // 68 lb are 30,844 g and 28 lb 12,701 g, each rounded half up.
  expect(line).toMatch(/^R-448A,0,0,0,18143,/);
  expect(line?.split(',')).toHaveLength(head?.split(',').length ?? 0);
  expect(end).toBe('');
});

test('the PDF is one, and is kept by nobody on the way', async () => {
  const file = await firm.of.auditor.get('/v1/books/period.pdf?from=2026-01-01&to=2026-03-31');
  expect([file.status, file.headers['content-type']]).toEqual([200, 'application/pdf']);
  expect(file.headers['content-disposition']).toBe('attachment; filename="books-2026-01-01-to-2026-03-31.pdf"');
  expect(file.headers['cache-control']).toBe('private, no-store');
  expect(file.text.startsWith('%PDF-')).toBe(true);
});

test.each([
  ['from=2026-02-30&to=2026-03-01', 'From: give a day, as 2026-04-30.'],
  ['from=2026-03-01', 'From and to: give both days, or neither for the current year.'],
  ['from=2026-03-01&to=2026-02-01', 'To: choose a day on or after the first.'],
  ['from=2001-01-01&to=2026-01-01', 'To: choose at most ten years.'],
])('%s is refused in words', async (query, words) => {
  for (const path of ['period', 'period.csv', 'period.pdf', 'period/accounts']) {
    const gas = path.endsWith('accounts') ? '&refrigerant=R-22' : '';
    const refused = await firm.of.owner.get(`/v1/books/${path}?${query}${gas}`);
    expect(refused.status, path).toBe(400);
    expect(refused.text).toContain(words);
  }
});
