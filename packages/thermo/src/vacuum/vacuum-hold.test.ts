import { expect, test } from 'vitest';
import { vacuumHold } from './vacuum-hold.ts';

const MICRON = 101.325 / 760;
/** Deterministic scatter of about one sigma of one, like a gauge's last digits. */
const jitter = (i: number) => 1.6 * (((i * 0.6180339887) % 1) - 0.5) * 2;
const hold = (
  curve: (seconds: number) => number,
  { minutes = 15, scatter = 0 }: { minutes?: number; scatter?: number } = {},
) =>
  vacuumHold({
    readings: Array.from({ length: minutes + 1 }, (_, i) => ({
      seconds: i * 60,
      pressurePa: curve(i * 60) * MICRON * (1 + scatter * jitter(i + 1)),
    })),
    volumeM3: 0.02,
  });

test('a steady deep vacuum is tight, but not before its time, nor from a bad start', () => {
  expect(hold((t) => 300 + t / 60).verdict).toBe('tight');
  expect(hold(() => 300, { minutes: 5 }).verdict).toBe('cannot-tell');
  expect(hold(() => 780).verdict).toBe('cannot-tell');
});

test('straight, flattening, and too short to say', () => {
  expect(hold((t) => 400 + 2 * t, { scatter: 0.01 }).verdict).toBe('leak');
  expect(hold((t) => 2500 - 2100 * Math.exp(-t / 200), { scatter: 0.01 }).verdict).toBe('moisture');
  expect(hold((t) => 4000 - 3600 * Math.exp(-t / 1200), { scatter: 0.03 }).verdict).toBe('cannot-tell');
});

test('steady above the limit is moisture up to the moisture limit, then nobody can tell', () => {
  expect(hold(() => 1500, { scatter: 0.01 }).verdict).toBe('moisture');
  expect(hold(() => 6000, { scatter: 0.01 }).verdict).toBe('cannot-tell');
});

test('near the limit the gauge decides nothing', () => {
  expect(hold((t) => 400 + (600 * t) / 900).verdict).toBe('cannot-tell');
});

test('fewer than three readings, or all at one time, say nothing', () => {
  const readings = [{ seconds: 0, pressurePa: 50 }];
  expect(vacuumHold({ readings })).toMatchObject({ verdict: 'cannot-tell', risePaPerS: null });
  expect(vacuumHold({ readings: [...readings, ...readings, ...readings] }).verdict).toBe('cannot-tell');
  expect(vacuumHold({ readings: [] }).verdict).toBe('cannot-tell');
});

test('the true slope lies within three sigma of the fitted one', () => {
  const ours = hold((t) => 400 + 2 * t, { scatter: 0.02 });
  expect(Math.abs(ours.risePaPerS! - 2 * MICRON)).toBeLessThan(3 * ours.riseSigmaPaPerS!);
  expect(ours.leakPaM3PerS).toBeCloseTo(0.02 * ours.risePaPerS!, 12);
});
