import { expect, test } from 'vitest';
import { massLeft } from './mass-left.ts';

const BASE = { refrigerant: 'R-410A', volumeM3: 0.02, pressureKpa: 101.325, temperatureK: 298.15 };

test('oil widens the answer to a range and leaves the vapour alone', () => {
  const dry = massLeft(BASE);
  const oily = massLeft({ ...BASE, oilKg: 1 });
  if (!dry.ok || !oily.ok) throw new Error('in range');
  expect(oily.grams).toBe(dry.grams);
  expect([oily.lowGrams - dry.grams, oily.highGrams - dry.grams]).toEqual([
    expect.closeTo(50, 9),
    expect.closeTo(200, 9),
  ]);
});

test('with liquid, and beyond the fits, there is no answer', () => {
  expect(massLeft({ ...BASE, pressureKpa: 1700 })).toMatchObject({ ok: false, fault: 'pressure-out-of-range' });
  expect(massLeft({ ...BASE, temperatureK: 200 })).toMatchObject({ ok: false, fault: 'temperature-out-of-range' });
  expect(massLeft({ ...BASE, pressureKpa: Number.NaN })).toMatchObject({ ok: false, fault: 'pressure-out-of-range' });
  expect(massLeft({ ...BASE, refrigerant: 'R-999' })).toMatchObject({ ok: false, fault: 'unknown-refrigerant' });
});

test('a vacuum holds no vapour', () => {
  expect(massLeft({ ...BASE, pressureKpa: 0 })).toMatchObject({ ok: true, grams: 0 });
});

test('from half the dew pressure to the dew point it neither jumps nor bends back', () => {
  const at = (pressureKpa: number) => {
    const left = massLeft({ ...BASE, pressureKpa });
    if (!left.ok) throw new Error(left.fault);
    return left;
  };
  const steps = Array.from({ length: 80 }, (_, i) => at(i * 20 + 10));
  steps.slice(1).forEach((left, i) => {
    const [before, perKpa] = [steps[i]!, (left.grams - steps[i]!.grams) / 20];
    expect(perKpa).toBeGreaterThan(before.gramsPerKpa * 0.99);
    expect(perKpa).toBeLessThan(left.gramsPerKpa * 1.01);
  });
});
