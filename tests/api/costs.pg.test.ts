import { beforeAll, expect, test } from 'vitest';
import { aFirm } from '../support/api-people.ts';
import type { Firm } from '../support/api-people.ts';
import { runApi } from '../support/api-run.ts';

const api = await runApi();
let firm: Firm;
beforeAll(async () => {
  firm = await aFirm(api);
});

test('the file of gas used comes as an attachment that nobody keeps', async () => {
  const { status, headers, text } = await firm.of.manager.get('/v1/gas-used/file?billed=all');
  expect(status).toBe(200);
  expect(headers).toMatchObject({
    'content-type': 'text/csv; charset=utf-8',
    'content-disposition': 'attachment; filename="gas-used.csv"',
    'cache-control': 'private, no-store',
  });
  expect(text.split('\r\n')[0]).toContain('"To bill, kg","To bill, lb"');
});
test.each([
  ['/v1/repeats?gwp=AR7', 'GWP: choose AR4, AR5 or AR6.'],
  ['/v1/repeats?order=tag', 'Order: choose evidence, gas or cost.'],
  ['/v1/repeats?after=5', 'Page: ask for the first page again.'],
  ['/v1/gas-used?billed=maybe', 'Billed: choose open, billed or all.'],
])('%s is refused in words', async (path, words) => {
  const { status, text } = await firm.of.auditor.get(path);
  expect([status, text.includes(words)]).toEqual([400, true]);
});
