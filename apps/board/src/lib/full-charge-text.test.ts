import { describe, expect, test } from 'vitest';
import { FullChargeEntry } from '@ullage/contracts';
import { fullChargeFrom } from './full-charge-text.ts';

const lb = (value: string) => ({ value, unit: 'lb' as const });

describe('a full charge as typed', () => {
  test('one figure stays in its own digits', () =>
    expect(fullChargeFrom({ text: '220.50', unit: 'lb', method: 'manufacturer' })).toEqual({
      mass: lb('220.50'),
      method: 'manufacturer',
    }));

  test.each(['200 to 241', '200-241', '200\u2013241', '200 TO 241'])('the range %j has its midpoint', (text) => {
    const body = fullChargeFrom({ text, unit: 'lb', method: 'range' });
    expect(body).toEqual({ mass: lb('220.5'), method: 'range', low: lb('200'), high: lb('241') });
    expect(FullChargeEntry.safeParse(body).success).toBe(true);
  });

  test('pounds and ounces become pounds, so that the midpoint is exact', () => {
    const body = fullChargeFrom({ text: '3 lb 3 oz to 3 lb 4 oz', unit: 'lb-oz', method: 'range' });
    expect(body).toMatchObject({ low: lb('3.1875'), high: lb('3.25'), mass: lb('3.21875') });
    expect(FullChargeEntry.safeParse(body).success).toBe(true);
  });

  test.each([
    ['220', 'Full charge: a range needs both ends, as 200 to 240 lb.'],
    ['240 to 200', 'Upper end of the range: must be more than the lower end.'],
  ])('%j is refused', (text, detail) => {
    const read = FullChargeEntry.safeParse(fullChargeFrom({ text, unit: 'lb', method: 'range' }));
    expect(read.error?.issues.map(({ message }) => message)).toEqual([detail]);
  });

  test('ends that are no numbers are refused at the ends', () => {
    const read = FullChargeEntry.safeParse(fullChargeFrom({ text: 'some to more', unit: 'lb', method: 'range' }));
    expect(read.success).toBe(false);
  });
});
