import { REFRIGERANTS, saturation } from '@ullage/thermo';
import type { Saturation } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';
import type { Row } from './csv.ts';

/**
 * Published values from handbooks and makers' pages, made with other and often older equations than ours: the distance
 * to expect is stated beside each kind and was not fitted row by row.
 */
const QUANTITIES: Readonly<Record<string, { of: (at: Saturation) => number; percent?: number; kelvin?: number }>> = {
  'normal boiling point': { of: (at) => at.bubbleTemperatureK - 273.15, kelvin: 0.05 },
  'saturation pressure': { of: (at) => at.bubblePressureKpa, percent: 0.2 },
  // Tables of blends from Martin-Hou and older mixture models differ by up to 2 % in pressure, 0.5 K in temperature.
  'bubble pressure': { of: (at) => at.bubblePressureKpa, percent: 2 },
  'dew pressure': { of: (at) => at.dewPressureKpa, percent: 2 },
  'bubble temperature': { of: (at) => at.bubbleTemperatureK - 273.15, kelvin: 0.5 },
  'dew temperature': { of: (at) => at.dewTemperatureK - 273.15, kelvin: 0.5 },
  'saturation temperature': { of: (at) => at.bubbleTemperatureK - 273.15, kelvin: 0.1 },
  'liquid density': { of: (at) => at.liquidDensityKgPerM3, percent: 0.3 },
  'liquid volume': { of: (at) => 1000 / at.liquidDensityKgPerM3, percent: 2 },
  'vapour volume': { of: (at) => 1 / at.vapourDensityKgPerM3, percent: 0.25 },
  'latent heat': { of: (at) => at.latentHeatKjPerKg ?? Number.NaN, percent: 0.3 },
};

/** `25 C`, `300 K`, `4 bar`, `101.325 kPa`, `at normal boiling point`; undefined for a state off the saturation line. */
function conditionOf(text: string): { temperatureK: number } | { pressureKpa: number } | undefined {
  if (text === 'at normal boiling point') return { pressureKpa: 101.325 };
  const [, value, unit = ''] = /^([-\d.]+) (C|K|bar|kPa)$/.exec(text) ?? [];
  switch (unit) {
    case 'C':
      return { temperatureK: Number(value) + 273.15 };
    case 'K':
      return { temperatureK: Number(value) };
    case 'bar':
      return { pressureKpa: Number(value) * 100 };
    case 'kPa':
      return { pressureKpa: Number(value) };
    default:
      return undefined;
  }
}

function stateOf(row: Row): Saturation | undefined {
  const condition = conditionOf(row.condition ?? '');
  if (!condition) return undefined;
  const answer = saturation({ refrigerant: row.fluid ?? '', ...condition });
  if (!answer.ok) throw new Error(`${row.fluid} ${row.condition}: ${answer.fault}`);
  return answer;
}

const known = rowsOf('published_crosscheck.csv').filter(
  (row) =>
    REFRIGERANTS.includes(row.fluid ?? '') &&
    QUANTITIES[row.quantity ?? ''] !== undefined &&
    stateOf(row) !== undefined,
);

test('the published values that have a counterpart here are not filtered away', () => {
  expect(known.length).toBeGreaterThanOrEqual(54);
  expect(new Set(known.map((row) => row.quantity)).size).toBe(Object.keys(QUANTITIES).length);
});

test.each(known)('$fluid $quantity, $condition: $published_value $unit ($source; $status)', (row) => {
  const quantity = QUANTITIES[row.quantity ?? '']!;
  const ours = quantity.of(stateOf(row)!);
  const published = number(row, 'published_value');
  if (quantity.kelvin !== undefined) expect(Math.abs(ours - published)).toBeLessThan(quantity.kelvin);
  else expect(Math.abs(percentOff(ours, published))).toBeLessThan(quantity.percent!);
});
