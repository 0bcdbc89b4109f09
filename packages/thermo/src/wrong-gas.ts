/** Air or another gas: two readings of one cylinder at two temperatures tell them apart. */
import { correlationOf, REFRIGERANTS } from './correlations/index.ts';
import { inRange, logPressureSlope, pressureKpa as linePressureKpa } from './saturation-line.ts';

export interface Reading {
  readonly temperatureK: number;
  /** Absolute. */
  readonly pressureKpa: number;
}

export interface Sigmas {
  readonly temperatureSigmaK: number;
  readonly pressureSigmaKpa: number;
}

/** `air`: the excess grows as a gas does; `another-gas`: as no gas does; `none`: nothing stands out. */
export type ExcessKind = 'none' | 'air' | 'another-gas' | 'cannot-tell';

export interface WrongGasHint {
  readonly kind: ExcessKind;
  /** What the second excess would be if the first were air, kPa. */
  readonly expectedExcessKpa: number;
  readonly excessKpa: number;
  readonly sigmaKpa: number;
  /** Refrigerants whose bubble pressure fits both readings within two sigma, when the named one does not. */
  readonly couldBe: readonly string[];
}

/** Air dissolves less in warmer liquid: its part of the pressure then grows by up to a tenth more than a gas's alone. */
const SOLUBILITY_MARGIN = 0.1;

interface Excess {
  readonly saturation: number;
  readonly excess: number;
  readonly sigma: number;
}

function excessOf(refrigerant: string, { temperatureK, pressureKpa }: Reading, sigmas: Sigmas): Excess | undefined {
  const of = correlationOf(refrigerant);
  if (!of || !inRange(of, temperatureK)) return undefined;
  const saturation = linePressureKpa(of, 'bubble', temperatureK);
  const slope = saturation * logPressureSlope(of, 'bubble', temperatureK);
  const sigma = Math.hypot(slope * sigmas.temperatureSigmaK, sigmas.pressureSigmaKpa);
  return { saturation, excess: pressureKpa - saturation, sigma };
}

const fits = (excess: Excess | undefined): boolean =>
  excess !== undefined && Math.abs(excess.excess) <= 2 * excess.sigma;

/**
 * Compares how the excess over saturation grew between two readings with how air's would (with the temperature) and a wrong
 * gas's (with the saturation pressure). Two sigma decide, else `cannot-tell`. Undefined outside the fits. Common practice asks
 * for about 10 K between the readings.
 */
export function wrongGas(
  refrigerant: string,
  [first, second]: readonly [Reading, Reading],
  sigmas: Sigmas,
): WrongGasHint | undefined {
  const a = excessOf(refrigerant, first, sigmas);
  const b = excessOf(refrigerant, second, sigmas);
  if (!a || !b) return undefined;
  const warmer = second.temperatureK / first.temperatureK;
  const expectedExcessKpa = a.excess * warmer;
  const sigmaKpa = Math.hypot(b.sigma, a.sigma * warmer);
  const said = { expectedExcessKpa, excessKpa: b.excess, sigmaKpa };
  if (fits(a) && fits(b)) return { ...said, kind: 'none', couldBe: [] };
  const margin = 2 * sigmaKpa + SOLUBILITY_MARGIN * Math.abs(a.excess);
  const isLow = a.excess + 2 * a.sigma < 0 || b.excess + 2 * b.sigma < 0;
  const couldBe = REFRIGERANTS.filter(
    (other) => other !== refrigerant && fits(excessOf(other, first, sigmas)) && fits(excessOf(other, second, sigmas)),
  );
  if (isLow || Math.abs(b.excess - expectedExcessKpa) > margin) return { ...said, kind: 'another-gas', couldBe };
  const asAnother = a.excess * (b.saturation / a.saturation);
  const tells = Math.abs(asAnother - expectedExcessKpa) > 2 * margin;
  return { ...said, kind: tells ? 'air' : 'cannot-tell', couldBe };
}
