import { inflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import type { PeriodBookView, PeriodView } from '@ullage/contracts';
import { periodPdf } from './period-pdf.ts';

const book = (refrigerant: string): PeriodBookView => ({
  refrigerant,
  opening: { cylinders: 20_000, circuits: 99_790 },
  closing: { cylinders: 42_810, circuits: 99_990 },
  ...{ broughtIn: 0, purchased: 50_000, fromOthers: 0, charged: 30_000, recovered: 12_000, sent: 9_000, missing: 190 },
  emissions: { leaked: 17_500, service: 300, total: 17_800 },
  massBalance: { inventoryFell: -22_810, acquired: 50_000, disbursed: 9_000, fullChargeRose: 0, emissions: 18_190 },
  difference: { total: -390, outOfDiscrepancy: -190, furtherBelowFull: -200 },
});
const view = (books: PeriodBookView[]): PeriodView => ({
  ...{ contractor: 'Tarn & Bracken Kühlung', from: '2026-01-01', to: '2026-12-31', timeZone: 'America/Denver' },
  ...{ madeAt: '2027-01-04T15:00:00.000Z', books },
  accounts: {} as PeriodView['accounts'],
});

/** The words of each page, by the file's own page streams. */
function wordsOf(pdf: Buffer): string[] {
  const pages: string[] = [];
  for (let at = pdf.indexOf('stream\n'); at >= 0; at = pdf.indexOf('stream\n', at + 7)) {
    if (pdf.subarray(at - 3, at).toString() === 'end') continue;
    const end = pdf.indexOf('endstream', at);
    let text: string;
    try {
      text = inflateSync(pdf.subarray(at + 7, end)).toString('latin1');
    } catch {
      continue;
    }
    const words = [...text.matchAll(/\[([^\]]*)\] TJ/g)].map(([, array = '']) =>
      [...array.matchAll(/<([0-9a-f]*)>/g)].map(([, hex = '']) => Buffer.from(hex, 'hex').toString('latin1')).join(''),
    );
    if (words.length > 0) pages.push(words.join('\n'));
  }
  return pages;
}

test('each refrigerant stands with its sums, below zero too', async () => {
  const pdf = await periodPdf(view([book('R-448A')]));
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  const [page = ''] = wordsOf(pdf);
  for (const words of [
    'Books from 2026-01-01 to 2026-12-31',
    'Tarn & Bracken Kühlung',
    'R-448A',
    '17,800 g',
    '-390 g',
  ]) {
    expect(page).toContain(words);
  }
});

test('many refrigerants go on to further pages, none of them torn', async () => {
  const gases = ['R-22', 'R-32', 'R-134a', 'R-404A', 'R-448A', 'R-454B'];
  const pages = wordsOf(await periodPdf(view(gases.map(book))));
  expect(pages.length).toBeGreaterThan(2);
  for (const page of pages) {
    expect(page.split('Ledger less mass balance').length).toBe(page.split('Opening: in cylinders').length);
  }
});

test('a name in letters the face does not know, and no gas at all, make a page all the same', async () => {
  const [page = ''] = wordsOf(await periodPdf({ ...view([]), contractor: 'Хладон 冷' }));
  expect(page).toContain('No gas was in the books.');
});
