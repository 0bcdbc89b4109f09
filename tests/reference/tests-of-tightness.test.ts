import {
  REFRIGERANTS,
  leakFlow,
  lineAllowance,
  massRatio,
  pressureTest,
  subcooling,
  superheat,
  vacuumHold,
  waterPressurePa,
  wetSpotTemperatureK,
} from '@ullage/thermo';
import type { PressureTestInput } from '@ullage/thermo';
import { expect, test } from 'vitest';
import { number, percentOff, rowsOf } from './csv.ts';

const PSI_KPA = 6.894757293;
const SEA_KPA = 101.325;
const kelvin = (fahrenheit: number) => (fahrenheit + 459.67) / 1.8;
const answered = <T extends { ok: boolean }>(answer: T): Extract<T, { ok: true }> => {
  if (!answer.ok) throw new Error(JSON.stringify(answer));
  return answer as Extract<T, { ok: true }>;
};
const held = (change: Partial<PressureTestInput>) =>
  answered(
    pressureTest({
      startPressureKpa: 3000,
      startTemperatureK: 293.15,
      endPressureKpa: 3000,
      endTemperatureK: 293.15,
      pressureSigmaKpa: 1,
      temperatureSigmaK: 0.1,
      limitKpa: 15,
      ...change,
    }),
  );

test.each(rowsOf('pressure_test_compensation.csv'))(
  'nitrogen at $p1_bar_abs bar warmed from $T1_C to $T2_C °C in a closed volume (CoolProp 8.0.1dev HEOS)',
  (row) => {
    const ours = held({
      startPressureKpa: number(row, 'p1_bar_abs') * 100,
      startTemperatureK: number(row, 'T1_C') + 273.15,
      endTemperatureK: number(row, 'T2_C') + 273.15,
    });
    expect(
      Math.abs(percentOff(ours.expectedPressureKpa / 100, number(row, 'p2_constant_volume_bar_abs'))),
    ).toBeLessThan(0.002);
    expect(Math.abs(percentOff(ours.idealExpectedPressureKpa / 100, number(row, 'p2_ideal_gas_bar_abs')))).toBeLessThan(
      0.001,
    );
  },
);

/** trade-practice: worked from tables. Gauge at sea level. */
test.each([
  ['400.0 psig from 70 to 60 °F', 400 * PSI_KPA, 70, 60, 392.2 * PSI_KPA, 391.6 * PSI_KPA, 0.5],
  ['42.0 bar gauge from 40 to 25 °C', 4200, 104, 77, 3994, 3976, 1.5],
])('%s', (_, gauge, from, to, ideal, real, within) => {
  const ours = held({
    startPressureKpa: gauge + SEA_KPA,
    startTemperatureK: kelvin(from),
    endTemperatureK: kelvin(to),
  });
  expect(Math.abs(ours.idealExpectedPressureKpa - SEA_KPA - ideal)).toBeLessThan(within);
  expect(Math.abs(ours.expectedPressureKpa - SEA_KPA - real)).toBeLessThan(within);
});

test('one kelvin of one reading at 500 psig is 0.97 psi per °F; a perfect hold passes, a drop near the limit cannot be told', () => {
  const start = 514.7 * PSI_KPA;
  const reading = {
    startPressureKpa: start,
    endPressureKpa: start,
    startTemperatureK: kelvin(70),
    endTemperatureK: kelvin(70),
  };
  const sigma = held({ ...reading, pressureSigmaKpa: 0, temperatureSigmaK: 1 / 1.8 }).sigmaKpa / PSI_KPA;
  // Start and end are each read once: root two of 0.97.
  expect(Math.abs(sigma / Math.SQRT2 - 0.97)).toBeLessThan(0.02);
  expect(held({})).toMatchObject({ verdict: 'pass', differenceKpa: expect.closeTo(0, 6) });
  expect(held({ endPressureKpa: 2960 }).verdict).toBe('fail');
  expect(held({ endPressureKpa: 2986 }).verdict).toBe('cannot-tell');
  // Cooled by 10 K: no drop at all, though the gauge fell by a hundred kilopascals.
  const cooled = held({ endTemperatureK: 283.15 });
  expect(held({ endTemperatureK: 283.15, endPressureKpa: cooled.expectedPressureKpa }).verdict).toBe('pass');
});

test('15 L at 25 °C losing 3 psi in an hour: 0.0862 Pa m3/s, 30.7 kg of nitrogen a year', () => {
  const start = 300 + SEA_KPA;
  const ours = held({
    startPressureKpa: start,
    endPressureKpa: start - 3 * PSI_KPA,
    startTemperatureK: 298.15,
    endTemperatureK: 298.15,
    volumeM3: 0.015,
    seconds: 3600,
    refrigerant: 'R-410A',
    operatingPressureKpa: 1000,
  });
  expect(Math.abs(percentOff(ours.leakPaM3PerS!, 0.0862))).toBeLessThan(0.3);
  expect(Math.abs(percentOff(ours.nitrogenGramsPerYear!, 30_700))).toBeLessThan(0.4);
  // A gross leak: a hole. Twice up and twice down, and what the readings leave open besides.
  const [low, high] = [ours.refrigerantGramsPerYearLow!, ours.refrigerantGramsPerYearHigh!];
  expect(high / low).toBeGreaterThan(4);
  expect(high / low).toBeLessThan(10);
  expect(
    held({ volumeM3: 0.015, seconds: 3600, refrigerant: 'R-410A', operatingPressureKpa: 1000 })
      .refrigerantGramsPerYearLow,
  ).toBe(0);
  expect(held({ endPressureKpa: 2900 }).leakPaM3PerS).toBeNull();
});

test.each(rowsOf('leak_flow_ratio.csv').filter((row) => REFRIGERANTS.includes(row.fluid ?? '')))(
  '$fluid against nitrogen, both at $upstream_p_bar_abs_both_gases bar: laminar, orifice, molecular',
  (row) => {
    const kpa = number(row, 'upstream_p_bar_abs_both_gases') * 100;
    const pressures = { nitrogenKpa: kpa, refrigerantKpa: kpa, outsideKpa: SEA_KPA };
    const off = (regime: 'laminar' | 'orifice' | 'molecular') =>
      Math.abs(
        percentOff(massRatio(row.fluid ?? '', regime, pressures)!, number(row, `mass_ratio_${regime}_fluid_to_N2`)),
      );
    expect(off('laminar')).toBeLessThan(0.1);
    expect(off('molecular')).toBeLessThan(0.1);
    // One heat capacity ratio stands for all; ammonia and carbon dioxide are furthest from it.
    expect(off('orifice')).toBeLessThan(6);
  },
);

/** trade-practice §5: 1e-6 Pa m3/s at 20 °C. */
test.each([
  ['R-134a', 1.32, 3.78e-6],
  ['R-22', 1.12, undefined],
  ['R-410A', 0.94, 5.32e-6],
  ['R-32', 0.67, 7.42e-6],
  ['R-404A', 1.26, undefined],
  ['R-290', 0.57, undefined],
])('%s: 1e-6 Pa m3/s is %f g a year; and 5 g a year back', (refrigerant, grams, flow) => {
  expect(answered(leakFlow({ refrigerant, paM3PerS: 1e-6 })).gramsPerYear).toBeCloseTo(grams, 2);
  if (flow !== undefined)
    expect(Math.abs(percentOff(answered(leakFlow({ refrigerant, gramsPerYear: 5 })).paM3PerS, flow))).toBeLessThan(0.2);
});

test.each(rowsOf('water_vapour_pressure.csv'))('water or ice at $T_C °C', (row) => {
  const celsius = number(row, 'T_C');
  const column = celsius <= 0.01 ? 'p_ice_IAPWS_R14_Pa' : 'p_liquid_IAPWS95_Pa';
  expect(Math.abs(percentOff(waterPressurePa(celsius + 273.15), number(row, column)))).toBeLessThan(0.02);
  expect(wetSpotTemperatureK(number(row, column))! - 273.15).toBeCloseTo(celsius, 2);
});

test('IAPWS R14-08(2011): ice at 230 K has 8.94735 Pa', () => {
  expect(waterPressurePa(230)).toBeCloseTo(8.94735, 4);
});

const MICRON = SEA_KPA / 760;
const minutes = (curve: (seconds: number) => number, upTo: number) =>
  Array.from({ length: upTo + 1 }, (_, i) => ({ seconds: i * 60, pressurePa: curve(i * 60) * MICRON }));

test('15 L rising straight from 500 to 1,500 microns in 600 s: 3.3e-3 Pa m3/s, a leak', () => {
  const ours = vacuumHold({ readings: minutes((t) => 500 + (1000 * t) / 600, 10), volumeM3: 0.015 });
  expect(ours.verdict).toBe('leak');
  expect(Math.abs(percentOff(ours.leakPaM3PerS!, 3.3e-3))).toBeLessThan(2);
  expect(ours.plateauPa).toBeNull();
});

test('a curve that flattens at 1,500 microns is moisture, of ice at -12.8 °C', () => {
  const ours = vacuumHold({ readings: minutes((t) => 1500 - 1100 * Math.exp(-t / 240), 20), volumeM3: 0.015 });
  expect(ours.verdict).toBe('moisture');
  expect(Math.abs(percentOff(ours.plateauPa! / MICRON, 1500))).toBeLessThan(2);
  expect(Math.abs(percentOff(ours.timeConstantS!, 240))).toBeLessThan(5);
  expect(Math.abs(ours.wetSpotTemperatureK! - 273.15 - -12.8)).toBeLessThan(0.2);
  expect(ours.leakPaM3PerS).toBeNull();
});

/** Read off the table's last column between its rows: ice, not supercooled water, which would be 2 to 3 K colder. */
test.each([
  [500, -24.5],
  [1000, -17.3],
  [5000, 1.2],
])('%f microns stand over ice or water at %f °C', (microns, celsius) => {
  expect(Math.abs(wetSpotTemperatureK(microns * MICRON)! - 273.15 - celsius)).toBeLessThan(0.2);
});

/** Saturation of R-134a: 25 °C at 665.4 kPa (see saturation_pure.csv). R-407C: bubble 1,190.2, dew 1,019.9 kPa at 25 °C. */
test('superheat over the dew point, subcooling under the bubble point, with one sigma', () => {
  const line = { pressureSigmaKpa: 7, temperatureSigmaK: 1 };
  const vapour = answered(superheat({ ...line, refrigerant: 'R-407C', pressureKpa: 1019.9, lineTemperatureK: 304.15 }));
  expect(vapour.kelvin).toBeCloseTo(6, 1);
  const liquid = answered(
    subcooling({ ...line, refrigerant: 'R-407C', pressureKpa: 1190.2, lineTemperatureK: 293.15 }),
  );
  expect(liquid.kelvin).toBeCloseTo(5, 1);
  const pure = answered(superheat({ ...line, refrigerant: 'R-134a', pressureKpa: 665.4, lineTemperatureK: 298.15 }));
  expect(pure.kelvin).toBeCloseTo(0, 1);
  // dp/dT of R-134a at 25 °C is 19.8 kPa/K.
  expect(pure.sigmaK).toBeCloseTo(Math.hypot(1, 7 / 19.8), 2);
});

test('line allowance: the maker says 56 g/m for R-410A in 3/8 inch; the bore full of liquid comes near it', () => {
  const line = { refrigerant: 'R-410A', lengthM: 20, includedM: 5 };
  expect(answered(lineAllowance({ ...line, gramsPerM: 56 }))).toMatchObject({ grams: 840, estimated: false });
  // Bore of 3/8 inch tube of 0.032 inch wall (ASTM B280): 7.9 mm.
  const bore = answered(lineAllowance({ ...line, innerDiameterMm: 7.9 }));
  expect(bore.estimated).toBe(true);
  expect(Math.abs(percentOff(bore.gramsPerM!, 56))).toBeLessThan(20);
  expect(answered(lineAllowance(line)).grams).toBeNull();
});
