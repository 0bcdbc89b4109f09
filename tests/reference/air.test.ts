import { REFRIGERANTS, airCheck, massLeft, saturation } from '@ullage/thermo';
import type { AirCheckInput } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';

const PSI_KPA = 6.894757293;
const ATMOSPHERE_KPA = 101.325;
const AIR_G_PER_MOL = 28.9647;
const kelvin = (fahrenheit: number) => (fahrenheit + 459.67) / 1.8;

const check = (input: AirCheckInput) => {
  const answer = airCheck(input);
  if (!answer.ok) throw new Error(answer.fault);
  return answer;
};

/** Dalton's sum of saturation pressure and air in a warm gauge's reading: worked by hand from the pressure card. */
const R134A: AirCheckInput = {
  refrigerant: 'R-134a',
  temperatureK: kelvin(75),
  pressureKpa: 90 * PSI_KPA + ATMOSPHERE_KPA,
  temperatureSigmaK: 0.1,
  pressureSigmaKpa: 1,
  volumeM3: 0.0216,
  netKg: 25 * 0.45359237,
};

test('R-134a at 75 °F reading 90.0 psig: excess 78 kPa, 10.8 % air, 11.5 g in a 47.6 lb cylinder with 25 lb', () => {
  const answer = check(R134A);
  expect((answer.saturationPressureKpa - ATMOSPHERE_KPA) / PSI_KPA).toBeCloseTo(78.7, 1);
  expect(answer.excessKpa).toBeCloseTo(78, 0);
  expect(answer.airMoleFraction! * 100).toBeCloseTo(10.8, 1);
  // 0.40 mol, rounded, times 29 g/mol is 11.6 g.
  expect(Math.abs(answer.airGrams! - 11.6)).toBeLessThan(0.2);
  expect(answer.verdict).toBe('over-shop-limit');
  expect(check({ ...R134A, temperatureSigmaK: 1, pressureSigmaKpa: 7 }).verdict).toBe('cannot-tell');
});

test('R-410A at 80 °F reading 250 psig: 13.5 psi of excess, 5.1 %, two sigma 15.2 psi with 2 °F and 2 psi', () => {
  const answer = check({
    refrigerant: 'R-410A',
    temperatureK: kelvin(80),
    pressureKpa: 250 * PSI_KPA + ATMOSPHERE_KPA,
    temperatureSigmaK: 2 / 1.8,
    pressureSigmaKpa: 2 * PSI_KPA,
  });
  expect(Math.abs(answer.excessKpa / PSI_KPA - 13.5)).toBeLessThan(0.1);
  expect(answer.airMoleFraction! * 100).toBeCloseTo(5.1, 1);
  expect(Math.abs(answer.excessSigmaKpa / PSI_KPA - 7.6)).toBeLessThan(0.1);
  expect(answer.verdict).toBe('cannot-tell');
});

/** 1.5 % by volume at 25 °C (AHRI 700) as an excess over saturation. */
test.each([
  ['R-134a', 10.1],
  ['R-22', 15.9],
  ['R-410A', 25.2],
  ['R-32', 25.7],
  ['R-404A', 19.1],
  ['R-407C', 18.1],
])('%s: the purity limit of 1.5 %% is an excess of only %f kPa', (refrigerant, excess) => {
  const saturated = saturation({ refrigerant, temperatureK: 298.15 });
  if (!saturated.ok) throw new Error(saturated.fault);
  const answer = check({
    refrigerant,
    temperatureK: 298.15,
    pressureKpa: saturated.bubblePressureKpa + excess,
    temperatureSigmaK: 1,
    pressureSigmaKpa: PSI_KPA,
  });
  expect(answer.airMoleFraction! * 100).toBeCloseTo(1.5, 1);
  // One kelvin and one psi: 2.7 to 3.2 % of one sigma, so that no field gauge certifies it.
  expect(answer.airMoleFractionSigma! * 100).toBeGreaterThan(2.6);
  expect(answer.airMoleFractionSigma! * 100).toBeLessThan(3.3);
  expect(answer.certifiable).toBe(false);
});

const mixed = rowsOf('air_check.csv').filter((row) => REFRIGERANTS.includes(row.fluid ?? ''));
const cylinderOf = (row: (typeof mixed)[number], pressureKpa: number) =>
  check({
    refrigerant: row.fluid ?? '',
    temperatureK: number(row, 'T_C') + 273.15,
    pressureKpa,
    temperatureSigmaK: 0.1,
    pressureSigmaKpa: 1,
    volumeM3: number(row, 'volume_L') / 1000,
    netKg: number(row, 'charge_kg'),
  });

test.each(mixed)('$fluid, $n_air_mol mol of air at $T_C °C, none of it dissolved yet: its grams come back', (row) => {
  const grams = number(row, 'n_air_mol') * AIR_G_PER_MOL;
  const added = number(row, 'p_simple_sum_kPa') - number(row, 'p_pure_kPa');
  const clean = cylinderOf(row, number(row, 'p_pure_kPa')).saturationPressureKpa;
  expect(Math.abs(percentOff(cylinderOf(row, clean + added).airGrams!, grams))).toBeLessThan(3);
});

test.each(mixed)(
  '$fluid, $charge_kg kg in $volume_L L: clean, it stands at or a little below the bubble pressure',
  (row) => {
    // A blend's vapour takes some of its light part: up to 0.5 % low here, which hides that much air.
    const low = percentOff(cylinderOf(row, number(row, 'p_pure_kPa')).saturationPressureKpa, number(row, 'p_pure_kPa'));
    expect(low).toBeGreaterThan(-0.05);
    expect(low).toBeLessThan(['R-407C', 'R-448A'].includes(row.fluid ?? '') ? 0.5 : 0.06);
  },
);

test.each(mixed.filter((row) => row.air_pair_source === 'library pair'))(
  '$fluid, $n_air_mol mol of air at $T_C °C at equilibrium: the grams are those in the vapour (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const answer = cylinderOf(row, number(row, 'p_total_model_kPa'));
    const inVapour = number(row, 'n_air_mol') * (1 - number(row, 'air_dissolved_pct') / 100) * AIR_G_PER_MOL;
    expect(Math.abs(percentOff(answer.airGrams!, inVapour))).toBeLessThan(6);
    // Real vapour holds more refrigerant than Dalton's sum says: our fraction of air errs upwards, never down.
    expect(answer.airMoleFraction!).toBeGreaterThan(number(row, 'y_air_vapour_mol'));
  },
);

test.each(rowsOf('residual_vapour_mass.csv'))(
  '$fluid at $T_C °C, $condition: mass left (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const left = (litres: number) => {
      const answer = massLeft({
        refrigerant: row.fluid ?? '',
        temperatureK: number(row, 'T_C') + 273.15,
        pressureKpa: number(row, 'p_abs_kPa'),
        volumeM3: litres / 1000,
      });
      if (!answer.ok) throw new Error(answer.fault);
      return answer;
    };
    expect(Math.abs(percentOff(left(12.2).grams, number(row, 'mass_g_in_12.2_L')))).toBeLessThan(0.1);
    expect(Math.abs(percentOff(left(50).idealGrams, number(row, 'ideal_gas_density_kgm3') * 50))).toBeLessThan(0.01);
  },
);

test.each([
  ['R-410A', 20, 101.325, 25, 60.1, 59.3],
  ['R-410A', 20, 67.5, 25, 39.9, undefined],
  ['R-404A', 300, 101.325, 20, 1239, 1217],
])(
  '%s in %f L at %f kPa and %f °C: %f g left, by the ideal gas %s',
  (refrigerant, litres, kpa, celsius, grams, ideal) => {
    const answer = massLeft({ refrigerant, volumeM3: litres / 1000, pressureKpa: kpa, temperatureK: celsius + 273.15 });
    if (!answer.ok) throw new Error(answer.fault);
    expect(Math.abs(percentOff(answer.grams, grams))).toBeLessThan(0.2);
    if (ideal !== undefined) expect(Math.abs(percentOff(answer.idealGrams, ideal))).toBeLessThan(0.1);
  },
);

/**
 * Superheated R-134a, m3/kg. First row: read in a textbook's table, made with an older equation (0.1 % off there too).
 * Others: from memory of a thermodynamics textbook's superheat table that rests on the same equation as ours.
 */
test.each([
  [100, 20, 0.23349, 0.12],
  [400, 40, 0.059292, 0.05],
  [400, 50, 0.061724, 0.05],
])('R-134a vapour at %f kPa and %f °C: %f m3/kg within %f %%', (pressureKpa, celsius, volume, percent) => {
  const one = massLeft({ refrigerant: 'R-134a', volumeM3: 1, pressureKpa, temperatureK: celsius + 273.15 });
  if (!one.ok) throw new Error(one.fault);
  expect(Math.abs(percentOff(1000 / one.grams, volume))).toBeLessThan(percent);
});

test.each(mixed)(
  '$fluid, $n_air_mol mol of air at $T_C °C, dissolved to equilibrium: both parts of it come back by the full mixture',
  (row) => {
    const answer = cylinderOf(row, number(row, 'p_total_model_kPa'));
    const grams = number(row, 'n_air_mol') * AIR_G_PER_MOL;
    const inVapour = grams * (1 - number(row, 'air_dissolved_pct') / 100);
    // A twentieth of a mole adds 6 to 14 kPa to a thousand: what the fits miss there, 0.05 %, is a larger part of it.
    expect(Math.abs(percentOff(answer.airGramsLow!, inVapour))).toBeLessThan(row.n_air_mol === '0.05' ? 8 : 5);
    expect(Math.abs(percentOff(answer.mixtureAirMoleFraction!, number(row, 'y_air_vapour_mol')))).toBeLessThan(8);
    // The upper end holds what is really inside, also where solubility is only estimated.
    expect(answer.airGramsHigh).toBeGreaterThan(grams * 0.93);
    expect(answer.airGramsHigh).toBeLessThan(grams * 1.5);
  },
);

test.each(
  [...rowsOf('saturation_pure.csv'), ...rowsOf('saturation_blends.csv')].filter(
    (row) => row.T_C === '20' && REFRIGERANTS.includes(row.fluid ?? row.blend ?? ''),
  ),
)(
  '$fluid$blend: vapour just below its dew point at 20 °C weighs what the table says of the saturated vapour',
  (row) => {
    const refrigerant = row.fluid ?? row.blend ?? '';
    const saturated = saturation({ refrigerant, temperatureK: 293.15 });
    if (!saturated.ok) throw new Error(saturated.fault);
    const pressureKpa = saturated.dewPressureKpa * (1 - 1e-9);
    const left = massLeft({ refrigerant, volumeM3: 1, pressureKpa, temperatureK: 293.15 });
    if (!left.ok) throw new Error(left.fault);
    const table = number(row, row.fluid === undefined ? 'rho_vapour_dew_kgm3' : 'rho_vapour_kgm3');
    expect(Math.abs(percentOff(left.grams / 1000, table))).toBeLessThan(0.05);
  },
);
