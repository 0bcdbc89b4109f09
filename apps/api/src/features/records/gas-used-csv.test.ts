import type { GasUsedRow } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { gasUsedCsv } from './gas-used-csv.ts';

const row: GasUsedRow = {
  visitId: '01890000-0000-7000-8000-000000000001',
  day: '2026-04-30',
  site: 'Quarry "Bend", Dunmoor',
  customer: '=HYPERLINK("http://x.example","pay")',
  circuits: [{ tag: '@0417-A', unitId: 'u', letter: 'A' }],
  people: ['+Ann', 'Bo'],
  onSite: false,
  refrigerant: 'R-448A',
  charged: [],
  recovered: [],
  chargedGrams: 100,
  ownGrams: 100,
  recoveredGrams: 12_100,
  netGrams: -12_000,
  billGrams: -12_000,
  price: null,
  amount: null,
  bill: { id: 'b', invoice: '-1+2', grams: 5, by: 'Kim', at: '2026-05-01T10:00:00.000Z' },
};

// RFC 4180: quotes are doubled inside quotes, lines end with CRLF. OWASP, CSV injection: = + - @ at the start are made text.
test('text that begins like a formula is made text; a number below zero stays a number', () => {
  const [head, line, end] = gasUsedCsv([row], 'USD').split('\r\n');
  expect(head?.startsWith('\uFEFF"Day","Customer","Site"')).toBe(true);
  expect(line).toBe(
    [
      `"2026-04-30","'=HYPERLINK(""http://x.example"",""pay"")","Quarry ""Bend"", Dunmoor","'@0417-A","'+Ann, Bo"`,
      // 12,000 g / 453.59237 g = 26.4555 lb.
      `"R-448A",100,100,12100,-12000,-12000,-12,-26.455,"no price",,,"USD","'-1+2",5,"Kim","2026-05-01T10:00:00.000Z"`,
      `"01890000-0000-7000-8000-000000000001"`,
    ].join(','),
  );
  expect(end).toBe('');
});
