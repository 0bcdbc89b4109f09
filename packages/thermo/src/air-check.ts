import { airInLiquid } from './air-dissolved.ts';
import type { AirInLiquid } from './air-dissolved.ts';
import { AIR_MOLAR_MASS, CUBIC_SOURCE, GAS_CONSTANT, PROPERTY_SOURCE } from './constants.ts';
import { correlationOf } from './correlations/index.ts';
import type { Correlation } from './correlations/types.ts';
import { unknownRefrigerant } from './fault.ts';
import type { ThermoFault } from './fault.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { inRange, liquidDensity, logPressureSlope, pressureKpa, vapourDensity } from './saturation-line.ts';
import { twoSigmaVerdict } from './verdict.ts';
import { wrongGas } from './wrong-gas.ts';
import type { ExcessKind, Reading, WrongGasHint } from './wrong-gas.ts';

export interface AirCheckInput {
  readonly refrigerant: string;
  /** Of the liquid: taken at the wall at liquid level. */
  readonly temperatureK: number;
  /** Absolute, with the barometer of the place where the cylinder was read. */
  readonly pressureKpa: number;
  readonly temperatureSigmaK: number;
  readonly pressureSigmaKpa: number;
  readonly barometerKpa?: number;
  /** Inner volume and contents: for grams of air, and to see that there is liquid and a vapour space. */
  readonly volumeM3?: number;
  readonly netKg?: number;
  readonly liquidPresent?: boolean;
  readonly restedHours?: number;
  /** Common practice: 24 h, 12 h at the least. */
  readonly minRestHours?: number;
  readonly shopExcessKpa?: number;
  readonly purityMoleFraction?: number;
  /** The same cylinder at another temperature, by the same instruments: tells air from another gas. */
  readonly second?: Reading;
}

export type AirVerdict = 'within-shop-limit' | 'over-shop-limit' | 'cannot-tell' | 'not-defined';

export interface AirCheck {
  readonly ok: true;
  readonly saturationPressureKpa: number;
  /** Signed: a reading below saturation shows a wrong gas, no liquid, or a cold spot. */
  readonly excessKpa: number;
  readonly excessSigmaKpa: number;
  /** Of the vapour; null where the check is not defined. */
  readonly airMoleFraction: number | null;
  readonly airMoleFractionSigma: number | null;
  /** In the vapour space alone, by Dalton's sum; null without volume and contents. */
  readonly airGrams: number | null;
  /** Inner volume less the liquid; null without volume and contents. */
  readonly vapourVolumeM3: number | null;
  /** By the full mixture: what this charge would show without air, and air as a range of grams. */
  readonly cleanPressureKpa: number | null;
  /** Of the vapour, by the full mixture: real vapour holds more refrigerant than Dalton's sum says. */
  readonly mixtureAirMoleFraction: number | null;
  /** In the vapour alone … */
  readonly airGramsLow: number | null;
  /** … and with what may have dissolved. Null where its solubility is not known. */
  readonly airGramsHigh: number | null;
  /** From two readings; null without the second. */
  readonly gas: ExcessKind | null;
  /** Refrigerants that fit both readings. */
  readonly couldBe: readonly string[];
  readonly verdict: AirVerdict;
  /** Whether two sigma fit inside the purity limit; an ordinary gauge never shows that. */
  readonly certifiable: boolean;
  readonly reasons: readonly Reason[];
}

/** 10 psi over the chart: common practice for a shop. */
export const DEFAULT_SHOP_EXCESS_KPA = 69;
/** 1.5 % by volume of non-condensable gas at 25 °C (AHRI 700, as in 40 CFR 82 subpart F appendix A). */
export const DEFAULT_PURITY_MOLE_FRACTION = 0.015;
const DEFAULT_MIN_REST_HOURS = 12;

interface Measured {
  readonly saturationKpa: number;
  readonly dewKpa: number;
  readonly excess: number;
  readonly sigma: number;
}

function measure(of: Correlation, input: AirCheckInput): Measured {
  const saturationKpa = pressureKpa(of, 'bubble', input.temperatureK);
  const slope = saturationKpa * logPressureSlope(of, 'bubble', input.temperatureK);
  return {
    saturationKpa,
    dewKpa: pressureKpa(of, 'dew', input.temperatureK),
    excess: input.pressureKpa - saturationKpa,
    sigma: Math.hypot(slope * input.temperatureSigmaK, input.pressureSigmaKpa),
  };
}

/** m3 left to the vapour: the contents are liquid and vapour, both at saturation. */
function vapourSpace(of: Correlation, input: AirCheckInput): number | undefined {
  if (input.volumeM3 === undefined || input.netKg === undefined) return undefined;
  const [liquid, vapour] = [liquidDensity(of, input.temperatureK), vapourDensity(of, input.temperatureK)];
  return input.volumeM3 - (input.netKg - vapour * input.volumeM3) / (liquid - vapour);
}

function whyNotDefined(input: AirCheckInput, measured: Measured, space: number | undefined): string | undefined {
  if (input.liquidPresent === false || (space !== undefined && space >= (input.volumeM3 ?? 0)))
    return 'Without liquid in the cylinder there is no saturation pressure to compare with.';
  if (space !== undefined && space <= 0)
    return 'The cylinder is full of liquid: its pressure says nothing about air. Check the weight first.';
  if (measured.excess + 2 * measured.sigma < 0)
    return 'Below saturation by more than two sigma: wrong gas, no liquid, or liquid colder than measured.';
  return undefined;
}

function verdictOf(input: AirCheckInput, measured: Measured): AirVerdict {
  // Too short a rest leaves the liquid colder or warmer than the wall: the reading may be right, but shows nothing.
  if (input.restedHours !== undefined && input.restedHours < (input.minRestHours ?? DEFAULT_MIN_REST_HOURS))
    return 'cannot-tell';
  const limit = input.shopExcessKpa ?? DEFAULT_SHOP_EXCESS_KPA;
  switch (twoSigmaVerdict({ value: measured.excess, sigma: measured.sigma, limit })) {
    case 'inside':
      return 'within-shop-limit';
    case 'outside':
      return 'over-shop-limit';
    case 'cannot-tell':
      return 'cannot-tell';
  }
}

function steps(input: AirCheckInput, measured: Measured, why: string | undefined): Reason[] {
  const limit = input.shopExcessKpa ?? DEFAULT_SHOP_EXCESS_KPA;
  const gauge =
    input.barometerKpa === undefined
      ? ''
      : ` (${figure(input.pressureKpa - input.barometerKpa)} kPa gauge at a barometer of ${figure(input.barometerKpa)} kPa)`;
  const reasons: Reason[] = [
    {
      text: `Bubble pressure of ${input.refrigerant} at ${figure(input.temperatureK)} K: ${figure(measured.saturationKpa)} kPa.`,
      source: PROPERTY_SOURCE,
    },
    {
      text: `Read ${figure(input.pressureKpa)} kPa${gauge}: excess ${figure(measured.excess)} kPa, two sigma ${figure(2 * measured.sigma)} kPa.`,
      source: 'excess = p - p_sat; sigma = sqrt((dp_sat/dT × sigma_T)² + sigma_p²)',
    },
  ];
  if (why !== undefined) return [...reasons, { text: why, source: 'common practice' }];
  const minimum = input.minRestHours ?? DEFAULT_MIN_REST_HOURS;
  if (input.restedHours !== undefined && input.restedHours < minimum)
    reasons.push({
      text: `Rested ${figure(input.restedHours)} h, at least ${figure(minimum)} h are needed: repeat after a longer rest.`,
      source: 'common practice',
    });
  if (measured.dewKpa < 0.98 * measured.saturationKpa)
    reasons.push({
      text: 'Blend with glide: part full, or after vapour was drawn, it stands a little below bubble pressure, which hides air.',
      source: 'common practice',
    });
  return [
    ...reasons,
    { text: `Shop limit: an excess of ${figure(limit)} kPa.`, source: 'common practice' },
    {
      text: `Purity limit: ${figure((input.purityMoleFraction ?? DEFAULT_PURITY_MOLE_FRACTION) * 100)} % by volume. A reclaimer's laboratory certifies it, not a gauge in the field.`,
      source: 'AHRI 700; 40 CFR 82 subpart F appendix A',
    },
  ];
}

const DISSOLVED_UNKNOWN: Reason = {
  text: 'Air dissolved in the liquid comes on top of the grams in the vapour, often as much again.',
  source: 'Henry constants of nitrogen in refrigerants (CoolProp 8.0.1dev HEOS mixtures), mostly estimated',
};

function dissolvedReason(air: AirInLiquid): Reason {
  const high = air.vapourGrams + air.dissolvedGramsAtMost;
  return {
    text: `Clean, this charge would stand at ${figure(air.cleanPressureKpa)} kPa: ${figure(air.vapourGrams, 1)} g of air in the vapour; with what has dissolved ${figure(air.vapourGrams + air.dissolvedGrams, 1)} g${air.estimated ? `, at most ${figure(high, 1)} g, since its solubility is only estimated` : ''}.`,
    source: `nitrogen for air; ${CUBIC_SOURCE}`,
  };
}

const GAS_WORDS: Readonly<Record<ExcessKind, string>> = {
  none: 'both readings fit the gas named',
  air: 'it grew as air does',
  'another-gas': 'air does not do that: rather another gas, a mixture, or no liquid',
  'cannot-tell': 'the readings are too near or too coarse to tell air from another gas',
};

function gasReason(hint: WrongGasHint): Reason {
  const others = hint.couldBe.length === 0 ? '' : ` It would fit ${hint.couldBe.slice(0, 6).join(', ')}.`;
  return {
    text: `Second reading: excess ${figure(hint.excessKpa)} kPa; air would show ${figure(hint.expectedExcessKpa)} kPa, two sigma ${figure(2 * hint.sigmaKpa)} kPa: ${GAS_WORDS[hint.kind]}.${others}`,
    source: 'common practice: air scales with the temperature, a wrong gas follows another curve',
  };
}

/** What the second reading says; no hint without one. */
function hintOf(input: AirCheckInput): WrongGasHint | undefined {
  if (!input.second) return undefined;
  const { temperatureK, pressureKpa: read } = input;
  return wrongGas(input.refrigerant, [{ temperatureK, pressureKpa: read }, input.second], input);
}

const dissolvedIn = ({ refrigerant, netKg, volumeM3, temperatureK, pressureKpa: read }: AirCheckInput) =>
  netKg === undefined || volumeM3 === undefined
    ? undefined
    : airInLiquid({ refrigerant, netKg, volumeM3, temperatureK, pressureKpa: read });

/** Where the check is not defined there is no air to speak of. */
const NO_AIR = {
  airMoleFraction: null,
  airMoleFractionSigma: null,
  airGrams: null,
  vapourVolumeM3: null,
  cleanPressureKpa: null,
  mixtureAirMoleFraction: null,
  airGramsLow: null,
  airGramsHigh: null,
  verdict: 'not-defined',
  certifiable: false,
} as const;

function fractionOf(input: AirCheckInput, measured: Measured) {
  const airMoleFraction = Math.max(0, measured.excess / input.pressureKpa);
  const airMoleFractionSigma = measured.sigma / input.pressureKpa;
  const verdict = verdictOf(input, measured);
  const purity = input.purityMoleFraction ?? DEFAULT_PURITY_MOLE_FRACTION;
  const certifiable = verdict === 'within-shop-limit' && airMoleFraction + 2 * airMoleFractionSigma <= purity;
  return { airMoleFraction, airMoleFractionSigma, verdict, certifiable };
}

interface Found {
  readonly measured: Measured;
  readonly space: number | undefined;
  readonly air: AirInLiquid | undefined;
}

function gramsOf({ temperatureK }: AirCheckInput, { measured, space, air }: Found) {
  const excess = Math.max(0, measured.excess);
  return {
    airGrams: space === undefined ? null : ((excess * 1000 * space) / (GAS_CONSTANT * temperatureK)) * AIR_MOLAR_MASS,
    vapourVolumeM3: space ?? null,
    cleanPressureKpa: air?.cleanPressureKpa ?? null,
    mixtureAirMoleFraction: air?.moleFraction ?? null,
    airGramsLow: air?.vapourGrams ?? null,
    airGramsHigh: air ? air.vapourGrams + air.dissolvedGramsAtMost : null,
  };
}

/**
 * Non-condensable gas in a rested cylinder that holds liquid: what it reads above the bubble pressure at its temperature.
 * All pressures absolute kPa. Verdicts against the shop limit need two sigma; the purity limit is answered apart. Grams in
 * the vapour by Dalton's sum are within 6 % of the full mixture, which also says what has dissolved.
 */
export function airCheck(input: AirCheckInput): AirCheck | ThermoFault {
  const of = correlationOf(input.refrigerant);
  if (!of) return unknownRefrigerant(input.refrigerant);
  if (![input.temperatureK, input.second?.temperatureK ?? input.temperatureK].every((t) => inRange(of, t)))
    return { ok: false, fault: 'temperature-out-of-range', lowK: of.lowestK, highK: of.highestK };
  const measured = measure(of, input);
  const space = vapourSpace(of, input);
  const why = whyNotDefined(input, measured, space);
  const hint = hintOf(input);
  const base = {
    ok: true,
    saturationPressureKpa: measured.saturationKpa,
    excessKpa: measured.excess,
    excessSigmaKpa: measured.sigma,
    gas: hint?.kind ?? null,
    couldBe: hint?.couldBe ?? [],
  } as const;
  const reasons = [...steps(input, measured, why), ...(hint ? [gasReason(hint)] : [])];
  if (why !== undefined) return { ...base, ...NO_AIR, reasons };
  const air = dissolvedIn(input);
  const dissolved = air ? dissolvedReason(air) : DISSOLVED_UNKNOWN;
  return {
    ...base,
    ...fractionOf(input, measured),
    ...gramsOf(input, { measured, space, air }),
    reasons: [...reasons, dissolved],
  };
}
