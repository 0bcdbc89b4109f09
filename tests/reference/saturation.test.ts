import { REFRIGERANTS, saturation } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';
import type { Row } from './csv.ts';

/** Of the fits against the equations of state: suggested for these fits by their makers' own error table. */
const TOLERANCE_PERCENT = { property: 0.05, latentHeat: 0.1 };

const tables = Map.groupBy([...rowsOf('saturation_pure.csv'), ...rowsOf('saturation_blends.csv')], nameOf);
function nameOf(row: Row): string {
  return row.fluid ?? row.blend ?? '';
}

const at = (refrigerant: string, temperatureK: number) => {
  const answer = saturation({ refrigerant, temperatureK });
  if (!answer.ok) throw new Error(`${refrigerant} at ${temperatureK} K: ${answer.fault}`);
  return answer;
};

function worst(refrigerant: string, rows: readonly Row[]) {
  let [property, latentHeat, compared] = [0, 0, 0];
  for (const row of rows) {
    const temperatureK = number(row, 'T_C') + 273.15;
    const ours = saturation({ refrigerant, temperatureK });
    if (!ours.ok) continue;
    compared++;
    const pure = row.fluid !== undefined;
    const pairs: [number, string][] = pure
      ? [
          [ours.bubblePressureKpa, 'p_sat_kPa'],
          [ours.dewPressureKpa, 'p_sat_kPa'],
          [ours.liquidDensityKgPerM3, 'rho_liquid_kgm3'],
          [ours.vapourDensityKgPerM3, 'rho_vapour_kgm3'],
        ]
      : [
          [ours.bubblePressureKpa, 'p_bubble_kPa'],
          [ours.dewPressureKpa, 'p_dew_kPa'],
          [ours.liquidDensityKgPerM3, 'rho_liquid_bubble_kgm3'],
          [ours.vapourDensityKgPerM3, 'rho_vapour_dew_kgm3'],
        ];
    for (const [value, column] of pairs)
      property = Math.max(property, Math.abs(percentOff(value, number(row, column))));
    const heat = number(row, pure ? 'h_fg_kJkg' : 'h_fg_isothermal_kJkg');
    latentHeat = Math.max(latentHeat, Math.abs(percentOff(ours.latentHeatKjPerKg ?? Number.NaN, heat)));
  }
  return { property, latentHeat, compared };
}

test.each(REFRIGERANTS)('%s follows its whole saturation table (CoolProp 8.0.1dev HEOS)', (refrigerant) => {
  const rows = tables.get(refrigerant) ?? [];
  const { property, latentHeat, compared } = worst(refrigerant, rows);
  // R-508B's last row lies within the 2 K below the critical point that its fits leave out.
  expect(compared).toBe(rows.length - (refrigerant === 'R-508B' ? 1 : 0));
  expect(compared).toBeGreaterThan(10);
  expect(property).toBeLessThan(TOLERANCE_PERCENT.property);
  expect(latentHeat).toBeLessThan(TOLERANCE_PERCENT.latentHeat);
});

test.each(rowsOf('saturation_blends.csv').filter((row) => ['-20', '0', '20', '25', '40'].includes(row.T_C ?? '')))(
  '$blend at $T_C °C: the dew temperature at its bubble pressure',
  (row) => {
    const pressureKpa = number(row, 'p_bubble_kPa');
    const ours = saturation({ refrigerant: nameOf(row), pressureKpa });
    if (!ours.ok) throw new Error(ours.fault);
    expect(ours.dewTemperatureK - 273.15).toBeCloseTo(number(row, 'T_dew_at_p_bubble_C'), 1);
    expect(ours.bubbleTemperatureK - 273.15).toBeCloseTo(number(row, 'T_C'), 1);
  },
);

const PSI_KPA = 6.894757293;
const ATMOSPHERE_KPA = 101.325;

/** Pressure-temperature cards of the trade, psig at sea level: common practice, printed to 0.1 psi. */
test.each([
  ['R-134a', [65, 70, 75, 80, 85, 90, 95, 100], [64.0, 71.1, 78.7, 86.7, 95.2, 104.3, 113.9, 124.2]],
  ['R-410A', [60, 70, 75, 80, 90, 100], [170.7, 201.7, 218.6, 236.5, 275.3, 318.5]],
])('%s: pressure-temperature card, psig by °F', (refrigerant, fahrenheit, psig) => {
  const ours = fahrenheit.map(
    (f) => (at(refrigerant, (f + 459.67) / 1.8).bubblePressureKpa - ATMOSPHERE_KPA) / PSI_KPA,
  );
  ours.forEach((value, i) => expect(Math.abs(value - psig[i]!)).toBeLessThan(0.15));
});
