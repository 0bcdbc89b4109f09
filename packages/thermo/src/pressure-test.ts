import { GAS_CONSTANT } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { massRatio, regimeOf } from './leak/other-gas.ts';
import type { LeakRegime } from './leak/other-gas.ts';
import { NITROGEN_MOLAR_MASS, nitrogenFault, nitrogenMoles, nitrogenPressure } from './nitrogen.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { twoSigmaVerdict } from './verdict.ts';

export interface PressureTestInput {
  /** All pressures absolute. */
  readonly startPressureKpa: number;
  /** Of the gas: the tube's wall, out of the sun. */
  readonly startTemperatureK: number;
  readonly endPressureKpa: number;
  readonly endTemperatureK: number;
  /** Of one reading: for one and the same gauge its repeatability, since its scale error cancels in a difference. */
  readonly pressureSigmaKpa: number;
  readonly temperatureSigmaK: number;
  /** The drop that is still allowed. */
  readonly limitKpa: number;
  readonly volumeM3?: number;
  readonly seconds?: number;
  /** In normal operation, and its pressure inside then: for what the leak means a year. */
  readonly refrigerant?: string;
  readonly operatingPressureKpa?: number;
  /** Outside; sea level unless given. */
  readonly barometerKpa?: number;
}

export interface PressureTest {
  readonly ok: true;
  readonly expectedPressureKpa: number;
  readonly idealExpectedPressureKpa: number;
  /** End minus expected: below zero is a drop. */
  readonly differenceKpa: number;
  readonly sigmaKpa: number;
  readonly verdict: 'pass' | 'fail' | 'cannot-tell';
  /** Of nitrogen at the temperature of the start; null without volume and time. */
  readonly leakPaM3PerS: number | null;
  readonly nitrogenGramsPerYear: number | null;
  readonly refrigerantGramsPerYearLow: number | null;
  readonly refrigerantGramsPerYearHigh: number | null;
  readonly reasons: readonly Reason[];
}

const SECONDS_PER_YEAR = 3.15576e7;
const SEA_LEVEL_KPA = 101.325;
/** From one gas to another a leak is known within a factor of two at best (from memory of leak-testing practice). */
const FACTOR = 2;

interface Held {
  readonly expected: number;
  readonly sigma: number;
  /** mol/m3 that have gone: below zero for a rise. */
  readonly lost: number;
}

function held(input: PressureTestInput): Held {
  const { startPressureKpa, startTemperatureK, endPressureKpa, endTemperatureK } = input;
  const start = nitrogenMoles(startPressureKpa, startTemperatureK);
  const expected = nitrogenPressure(start, endTemperatureK);
  // How the expectation moves with each reading; the ratio is close enough for a sigma.
  const byPressure = expected / startPressureKpa;
  const byTemperature = Math.hypot(expected / startTemperatureK, expected / endTemperatureK);
  return {
    expected,
    sigma: Math.hypot(
      input.pressureSigmaKpa,
      byPressure * input.pressureSigmaKpa,
      byTemperature * input.temperatureSigmaK,
    ),
    lost: start - nitrogenMoles(endPressureKpa, endTemperatureK),
  };
}

const VERDICT = { inside: 'pass', outside: 'fail', 'cannot-tell': 'cannot-tell' } as const;

interface Leak {
  readonly paM3PerS: number;
  readonly gramsPerYear: number;
  /** Two sigma of the readings on either side, never below zero. */
  readonly lowGramsPerYear: number;
  readonly highGramsPerYear: number;
}

function leakOf(input: PressureTestInput, { lost, sigma }: Held): Leak | undefined {
  const { volumeM3, seconds, startTemperatureK } = input;
  if (volumeM3 === undefined || seconds === undefined) return undefined;
  const gramsOf = (molesPerM3: number) =>
    (Math.max(0, molesPerM3) * volumeM3 * NITROGEN_MOLAR_MASS * SECONDS_PER_YEAR) / seconds;
  const doubt = (2 * sigma * 1000) / (GAS_CONSTANT * input.endTemperatureK);
  return {
    paM3PerS: (Math.max(0, lost) * volumeM3 * GAS_CONSTANT * startTemperatureK) / seconds,
    gramsPerYear: gramsOf(lost),
    lowGramsPerYear: gramsOf(lost - doubt),
    highGramsPerYear: gramsOf(lost + doubt),
  };
}

interface InRefrigerant {
  readonly low: number;
  readonly high: number;
  readonly regime: LeakRegime;
  readonly ratio: number;
}

function inRefrigerant(input: PressureTestInput, leak: Leak | undefined): InRefrigerant | undefined {
  const { refrigerant, operatingPressureKpa } = input;
  if (!leak || refrigerant === undefined || operatingPressureKpa === undefined) return undefined;
  const regime = regimeOf(leak.paM3PerS);
  const ratio = massRatio(refrigerant, regime, {
    nitrogenKpa: (input.startPressureKpa + input.endPressureKpa) / 2,
    refrigerantKpa: operatingPressureKpa,
    outsideKpa: input.barometerKpa ?? SEA_LEVEL_KPA,
  });
  if (ratio === undefined) return undefined;
  return {
    low: (leak.lowGramsPerYear * ratio) / FACTOR,
    high: leak.highGramsPerYear * ratio * FACTOR,
    regime,
    ratio,
  };
}

const REGIME_WORDS: Readonly<Record<LeakRegime, string>> = {
  molecular: 'the finest paths (as the root of the molar mass)',
  laminar: 'fine capillaries (molar mass over viscosity, pressures squared)',
  orifice: 'a hole (pressure and the root of the molar mass)',
};

interface Meaning {
  readonly leak: Leak | undefined;
  readonly gas: InRefrigerant | undefined;
}

function reasonsOf(input: PressureTestInput, found: Held, { leak, gas }: Meaning): Reason[] {
  const difference = input.endPressureKpa - found.expected;
  const reasons: Reason[] = [
    {
      text: `${figure(input.startPressureKpa)} kPa at ${figure(input.startTemperatureK)} K must stand at ${figure(found.expected)} kPa at ${figure(input.endTemperatureK)} K.`,
      source: 'nitrogen of constant density: Span et al., JPCRD 29 (2000), own virial fit',
    },
    {
      text: `Read ${figure(input.endPressureKpa)} kPa: ${figure(difference)} kPa, two sigma ${figure(2 * found.sigma)} kPa; a drop of ${figure(input.limitKpa)} kPa is allowed.`,
      source: 'sigma from two readings of pressure and two of temperature',
    },
  ];
  if (difference > 2 * found.sigma)
    reasons.push({
      text: 'It rose by more than two sigma: some gas is warmer than measured, or gas came in. Measure again.',
      source: 'common practice',
    });
  if (leak)
    reasons.push({
      text: `Leak of ${leak.paM3PerS.toPrecision(3)} Pa m3/s, ${figure(leak.gramsPerYear, 0)} g of nitrogen a year; two sigma of the readings give ${figure(leak.lowGramsPerYear, 0)} to ${figure(leak.highGramsPerYear, 0)} g.`,
      source: 'Q = V (n1 - n2) R T1 / t',
    });
  if (gas)
    reasons.push({
      text: `Of ${input.refrigerant} ${figure(gas.low, 0)} to ${figure(gas.high, 0)} g a year: ${figure(gas.ratio, 3)} times the nitrogen, as through ${REGIME_WORDS[gas.regime]}, and a factor of two either way, which is the best that is known.`,
      source: 'leak-testing practice, from memory; viscosities as in CoolProp 8.0.1dev',
    });
  reasons.push({
    text: 'Dry nitrogen only, regulator and relief set, never above the plate. A pass shows no fine leak: soap or detector at the repair.',
    source: 'common practice; local codes and the maker rule beside this',
  });
  return reasons;
}

/**
 * A standing pressure test with nitrogen in a closed volume: what the pressure ought to be at the end's temperature by real
 * nitrogen (0.01 % to 4.5 MPa), the drop against the one allowed with two sigma, the leak, and what it means in refrigerant.
 * 233 to 353 K, up to 5 MPa, absolute.
 */
export function pressureTest(input: PressureTestInput): PressureTest | ThermoFault {
  const fault = faultOf(input);
  if (fault) return fault;
  const found = held(input);
  const differenceKpa = input.endPressureKpa - found.expected;
  const leak = leakOf(input, found);
  const gas = inRefrigerant(input, leak);
  const { low = null, high = null } = gas ?? {};
  const { paM3PerS = null, gramsPerYear = null } = leak ?? {};
  return {
    ok: true,
    expectedPressureKpa: found.expected,
    idealExpectedPressureKpa: (input.startPressureKpa * input.endTemperatureK) / input.startTemperatureK,
    differenceKpa,
    sigmaKpa: found.sigma,
    verdict: VERDICT[twoSigmaVerdict({ value: -differenceKpa, sigma: found.sigma, limit: input.limitKpa })],
    leakPaM3PerS: paM3PerS,
    nitrogenGramsPerYear: gramsPerYear,
    refrigerantGramsPerYearLow: low,
    refrigerantGramsPerYearHigh: high,
    reasons: reasonsOf(input, found, { leak, gas }),
  };
}

function faultOf(input: PressureTestInput): ThermoFault | undefined {
  if (input.refrigerant !== undefined && !correlationOf(input.refrigerant))
    return unknownRefrigerant(input.refrigerant);
  return (
    nitrogenFault(input.startPressureKpa, input.startTemperatureK) ??
    nitrogenFault(input.endPressureKpa, input.endTemperatureK)
  );
}
