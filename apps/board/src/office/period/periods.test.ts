import { expect, test } from 'vitest';
import { askedDays, periodChoices, periodFile, periodPath } from './periods.ts';

const today = '2026-05-06';
const year = { from: '2026-01-01', to: '2026-12-31' };

test('what is no period, or one that ends before it begins, is the current year', () => {
  expect(askedDays({}, today)).toEqual(year);
  expect(askedDays({ from: '2026-02-30x', to: '2026-03-01' }, today)).toEqual(year);
  expect(askedDays({ from: '2026-06-01', to: '2026-03-01' }, today)).toEqual(year);
  expect(askedDays({ from: ['2026-02-01', 'x'], to: '2026-03-01' }, today)).toEqual({
    from: '2026-02-01',
    to: '2026-03-01',
  });
});

test('offers three years and the quarters of the one that is looked at', () => {
  const words = (from: string) => periodChoices({ from, to: from }, today).map((choice) => choice.words);
  expect(words('2025-04-01')).toEqual(['2026', '2025', '2024', 'Q1 2025', 'Q2 2025', 'Q3 2025', 'Q4 2025']);
  expect(words('2019-01-01')).toContain('2019');
  const second = periodChoices({ from: '2025-04-01', to: '2025-06-30' }, today)[4];
  expect(second).toEqual({ words: 'Q2 2025', from: '2025-04-01', to: '2025-06-30' });
});

test('addresses say the days, and which gas is unfolded', () => {
  expect(periodPath(year)).toBe('/books/period?from=2026-01-01&to=2026-12-31');
  expect(periodPath(year, 'R-22')).toBe('/books/period?from=2026-01-01&to=2026-12-31&of=R-22#accounts');
  expect(periodFile(year, 'pdf')).toBe('/v1/books/period.pdf?from=2026-01-01&to=2026-12-31');
});
