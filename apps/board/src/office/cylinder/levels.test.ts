import { describe, expect, test } from 'vitest';
import { levelsOf, liquidShare } from './levels.ts';

describe('where the liquid stands', () => {
  test('at the fill of AHRI Guideline K four fifths of the volume is liquid at 77 °F, give or take the vapour', () => {
    // R-134a: liquid 1206.7, vapour 32.35 kg/m3 at 25 °C (CoolProp HEOS); 0.80 of the liquid's mass
    const share = liquidShare('R-134a', 0.8 * 1206.7, 298.15);
    expect(share).toBeCloseTo((0.8 * 1206.7 - 32.35) / (1206.7 - 32.35), 2);
  });
  const cylinder = (netGrams: number, refrigerant: string | null) => ({
    cylinder: { netGrams, refrigerant },
    waterCapacityKg: 21.590997,
    tareGrams: 12_701,
    grossLimitKg: 31.657,
  });
  test('a cylinder with room stands below its limit, and grows in the heat', () => {
    const { liquid, limit, hot } = levelsOf(cylinder(12_000, 'R-448A'));
    expect(liquid).toBeLessThan(limit ?? 0);
    expect(hot).toBeGreaterThan(liquid ?? 1);
    expect(limit).toBeGreaterThan(0.75);
    expect(limit).toBeLessThan(0.8);
  });
  test('an empty one has no level, and an unknown gas is not guessed', () => {
    expect(levelsOf(cylinder(0, 'R-448A')).liquid).toBeUndefined();
    expect(levelsOf(cylinder(500, null))).toEqual({ liquid: undefined, limit: undefined, hot: undefined });
  });
});
