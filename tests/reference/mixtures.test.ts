import { REFRIGERANTS, cylinderContents, mixture, vapourLoss } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';
import type { Row } from './csv.ts';

/** Of CoolProp 8.0.1dev (HEOS) mixtures: see data/SOURCES.md. */
const kelvin = (row: Row) => number(row, 'T_C') + 273.15;
const answered = <T extends { ok: boolean }>(answer: T): Extract<T, { ok: true }> => {
  if (!answer.ok) throw new Error(JSON.stringify(answer));
  return answer as Extract<T, { ok: true }>;
};
const gasNamed = (name: string) => (name === 'R-728' ? 'nitrogen' : name);
const listed = (row: Row, components: string, values: string): Record<string, number> => {
  const numbers = (row[values] ?? '').split(';').map(Number);
  return Object.fromEntries(
    (row[components] ?? '').split('|').map((name, i) => [gasNamed(name), numbers[i] ?? Number.NaN]),
  );
};
const furthest = (ours: Readonly<Record<string, number>> | null, theirs: Readonly<Record<string, number>>): number =>
  Math.max(...Object.entries(theirs).map(([name, value]) => Math.abs((ours?.[name] ?? Number.NaN) - value)));

const blends = rowsOf('saturation_blends.csv').filter((row) => REFRIGERANTS.includes(row.blend ?? ''));
const byBlend = Map.groupBy(blends, (row) => row.blend ?? '');

test.each([...byBlend.keys()])(
  '%s: bubble and dew pressure over the whole table, to 3 %% below its critical point',
  (blend) => {
    const rows = byBlend.get(blend) ?? [];
    const hottest = Math.max(...rows.map(kelvin)) + 2;
    let checked = 0;
    for (const row of rows.filter((one) => kelvin(one) < 0.97 * hottest)) {
      const ours = answered(mixture({ massFractions: { [blend]: 1 }, temperatureK: kelvin(row) }));
      expect(Math.abs(percentOff(ours.bubblePressureKpa!, number(row, 'p_bubble_kPa')))).toBeLessThan(0.1);
      expect(Math.abs(percentOff(ours.dewPressureKpa!, number(row, 'p_dew_kPa')))).toBeLessThan(0.1);
      checked++;
    }
    expect(checked).toBeGreaterThan(15);
  },
);

/** g/mol as the reference has them. */
const G_PER_MOL = new Map(
  Object.entries({
    'R-12': 120.913,
    'R-22': 86.468,
    'R-23': 70.01385,
    'R-32': 52.024,
    'R-115': 154.46642,
    'R-116': 138.01182,
    'R-124': 136.4762,
    'R-125': 120.0214,
    'R-134a': 102.032,
    'R-142b': 100.49503,
    'R-143a': 84.041,
    'R-152a': 66.051,
    'R-227ea': 170.02886,
    'R-13I1': 195.9104,
    'R-290': 44.09562,
    'R-600': 58.1222,
    'R-600a': 58.1222,
    'R-601a': 72.14878,
    'R-744': 44.0098,
    'R-1234yf': 114.0416,
    'R-1234ze(E)': 114.04159,
    nitrogen: 28.01348,
  }),
);
const byMass = (moles: Readonly<Record<string, number>>): number[] => {
  const grams = Object.entries(moles).map(([name, n]) => n * G_PER_MOL.get(name)!);
  const total = grams.reduce((sum, g) => sum + g, 0);
  return grams.map((g) => g / total);
};

/** Azeotropes too far from ideal for one parameter a pair: pressure is right, the phases' composition less so. */
const FAR_FROM_IDEAL = ['R-466A', 'R-500', 'R-502'];

test.each(blends.filter((row) => [-40, 20, 40].includes(number(row, 'T_C')) && row.blend !== 'R-508B'))(
  '$blend at $T_C °C: what the first bubble and the first drop are made of',
  (row) => {
    const ours = answered(mixture({ massFractions: { [row.blend ?? '']: 1 }, temperatureK: kelvin(row) }));
    for (const [fractions, column] of [
      [ours.bubbleVapourMoleFractions, 'bubble_vapour_massfrac'],
      [ours.dewLiquidMoleFractions, 'dew_liquid_massfrac'],
    ] as const) {
      const theirs = (row[column] ?? '').split(';').map(Number);
      const off = byMass(fractions!).map((share, i) => Math.abs(share - theirs[i]!));
      expect(Math.max(...off), column).toBeLessThan(FAR_FROM_IDEAL.includes(row.blend ?? '') ? 0.09 : 0.016);
    }
  },
);

const states = rowsOf('mixture_vle.csv');

test.each(states.filter((row) => row.kind !== 'flash'))('$mixture, $kind at $T_C °C', (row) => {
  const ours = answered(
    mixture({ moleFractions: listed(row, 'components', 'z_mole_overall'), temperatureK: kelvin(row) }),
  );
  const bubble = row.kind === 'bubble';
  const kpa = bubble ? ours.bubblePressureKpa : ours.dewPressureKpa;
  const incipient = bubble ? ours.bubbleVapourMoleFractions : ours.dewLiquidMoleFractions;
  expect(Math.abs(percentOff(kpa!, number(row, 'p_kPa')))).toBeLessThan(0.6);
  expect(furthest(incipient, listed(row, 'components', bubble ? 'y_mole_vapour' : 'x_mole_liquid'))).toBeLessThan(
    0.014,
  );
});

test.each(states.filter((row) => row.kind === 'flash'))(
  '$mixture at $T_C °C in a closed volume: pressure, liquid and both phases',
  (row) => {
    const z = listed(row, 'components', 'z_mole_overall');
    const massesKg = Object.fromEntries(
      Object.entries(z).map(([name, n]) => [name, (n * G_PER_MOL.get(name)!) / 1000]),
    );
    const ours = answered(
      cylinderContents({
        massesKg,
        volumeM3: number(row, 'overall_molar_volume_L_per_mol') / 1000,
        temperatureK: kelvin(row),
      }),
    );
    expect(ours.phase).toBe('two-phase');
    expect(Math.abs(percentOff(ours.pressureKpa, number(row, 'p_kPa')))).toBeLessThan(0.4);
    expect(Math.abs(ours.liquidVolumeFraction - number(row, 'liquid_volume_fraction'))).toBeLessThan(0.001);
    expect(furthest(ours.liquidMoleFractions, listed(row, 'components', 'x_mole_liquid'))).toBeLessThan(0.007);
    expect(furthest(ours.vapourMoleFractions, listed(row, 'components', 'y_mole_vapour'))).toBeLessThan(0.007);
  },
);

test.each(rowsOf('cylinder.csv').filter((row) => row.state_25C === 'two-phase' && row.fluid !== 'R-23'))(
  '$fluid, $charge_kg kg in $water_capacity_L L: pressure and liquid part at 21.1, 25 and 54.4 °C',
  (row) => {
    for (const celsius of ['21.1', '25', '54.4']) {
      if (row[`state_${celsius}C`] === 'single-phase') continue;
      const ours = answered(
        cylinderContents({
          massesKg: { [row.fluid ?? '']: number(row, 'charge_kg') },
          volumeM3: number(row, 'water_capacity_L') / 1000,
          temperatureK: Number(celsius) + 273.15,
        }),
      );
      expect(Math.abs(percentOff(ours.pressureKpa, number(row, `p_${celsius}C_kPa`)))).toBeLessThan(0.1);
      expect(Math.abs(ours.liquidVolumeFraction - number(row, `liquid_volume_fraction_${celsius}C`))).toBeLessThan(
        0.001,
      );
    }
  },
);

test.each(rowsOf('cylinder.csv').filter((row) => row['state_54.4C'] === 'single-phase'))(
  '$fluid, $charge_kg kg in $water_capacity_L L at 54.4 °C: one dense phase, pressure within 5 %%',
  (row) => {
    const ours = answered(
      cylinderContents({
        massesKg: { [row.fluid ?? '']: number(row, 'charge_kg') },
        volumeM3: number(row, 'water_capacity_L') / 1000,
        temperatureK: 327.55,
      }),
    );
    expect(ours.phase).toBe('liquid-full');
    expect(Math.abs(percentOff(ours.pressureKpa, number(row, 'p_54.4C_kPa')))).toBeLessThan(5);
  },
);

test.each(rowsOf('air_check.csv'))(
  '$fluid, $charge_kg kg with $n_air_mol mol of air at $T_C °C: what the air adds to the pressure ($air_pair_source)',
  (row) => {
    const ours = answered(
      cylinderContents({
        massesKg: { [row.fluid ?? '']: number(row, 'charge_kg'), air: (number(row, 'n_air_mol') * 28.9647) / 1000 },
        volumeM3: number(row, 'volume_L') / 1000,
        temperatureK: kelvin(row),
      }),
    );
    const added = number(row, 'p_total_model_kPa') - number(row, 'p_pure_kPa');
    const off = (100 * (ours.pressureKpa - number(row, 'p_total_model_kPa'))) / added;
    expect(Math.abs(off)).toBeLessThan(row.air_pair_source === 'library pair' ? 3.5 : 6);
    const [least, most] = [number(row, 'p_total_if_Henry_x0.6_kPa'), number(row, 'p_total_if_Henry_x1.6_kPa')];
    expect(ours.pressureKpa).toBeGreaterThan(least);
    expect(ours.pressureKpa).toBeLessThan(most);
  },
);

test.each(rowsOf('leak_fractionation.csv'))(
  '$blend, $vapour_mass_withdrawn_pct_of_initial %% lost as vapour from $initial_mass_kg_in_20L kg in 20 L',
  (row) => {
    const lost = number(row, 'vapour_mass_withdrawn_pct_of_initial');
    const ours = answered(
      vapourLoss({
        refrigerant: row.blend ?? '',
        volumeM3: 0.02,
        massKg: number(row, 'initial_mass_kg_in_20L'),
        temperatureK: kelvin(row),
        lostFraction: lost / 100,
      }),
    );
    expect(Math.abs(percentOff(ours.pressureKpa, number(row, 'p_kPa')))).toBeLessThan(0.7);
    for (const [composition, column] of [
      [ours.liquidMassFractions, 'liquid_mass_pct'],
      [ours.vapourMassFractions, 'vapour_mass_pct'],
      [ours.remainingMassFractions, 'overall_remaining_mass_pct'],
    ] as const) {
      const percent = Object.fromEntries(Object.entries(composition!).map(([name, share]) => [name, share * 100]));
      expect(furthest(percent, listed(row, 'components', column)), column).toBeLessThan(0.6);
    }
  },
);
