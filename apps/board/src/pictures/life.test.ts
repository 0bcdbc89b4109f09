import { describe, expect, test } from 'vitest';
import { layLabels, lossCurve, quarterTicks, type LifeAddition } from './life.ts';
import { stackSpans } from './scales.ts';

const add = (day: string, mass: number | undefined, atRepair = false): LifeAddition => ({ day, mass, atRepair });

describe('lossCurve', () => {
  // Invented story; each rate by hand: mass ÷ days × 365.
  const curve = lossCurve(
    [add('2025-12-01', 12), add('2025-08-20', 14), add('2026-02-14', 18), add('2026-04-30', 18, true)],
    '2025-01-01',
  );
  test('adds up in order of time, whatever the order given', () => {
    expect(curve.points.map((point) => point.total)).toEqual([0, 14, 26, 44, 62]);
  });
  test('a slope is a rate: 12 lb in 103 d, 18 lb in 75 d', () => {
    expect(curve.slopes.map((slope) => Math.round(slope.perYear))).toEqual([43, 88, 88]);
    expect(curve.slopes[2]?.perYear).toBeCloseTo(87.6, 9);
  });
  test('no rate is drawn across an addition of unknown mass', () => {
    const gap = lossCurve([add('2025-01-10', 5), add('2025-06-10', undefined), add('2025-12-10', 7)], '2025-01-01');
    expect(gap.slopes).toEqual([]);
    expect(gap.points.at(-1)?.total).toBe(12);
  });
  test('nothing added, nothing drawn but the start', () => {
    expect(lossCurve([], '2025-01-01')).toEqual({ points: [{ day: 20089, total: 0 }], slopes: [] });
  });
});

test('quarterTicks: inside the span only, January with its year', () => {
  expect(quarterTicks('2025-05-22', '2026-04-30').map((tick) => tick.text)).toEqual(['Jul', 'Oct', '2026', 'Apr']);
});

test('layLabels: a text that would leave the drawing stands left, and what would cover another moves down', () => {
  const laid = layLabels(
    [
      { from: 0.9, to: 0.95, letters: 30 },
      { from: 0.91, to: 0.93, letters: 30 },
      { from: 0.1, to: 0.15, letters: 10 },
    ],
    stackSpans,
  );
  expect(laid.map((one) => one.side)).toEqual(['left', 'left', 'right']);
  expect(laid.map((one) => one.row)).toEqual([0, 1, 0]);
});
