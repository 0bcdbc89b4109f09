/** Straight or flattening: the curve of a vacuum after the pump is shut off, with what the readings can tell of it. */

export interface VacuumReading {
  /** From the isolation. */
  readonly seconds: number;
  /** Absolute. */
  readonly pressurePa: number;
}

/** `p = p0 + r (1 - exp(-k t)) / k`: with k = 0 a straight line, as of a leak; else it flattens to p0 + r / k. */
export interface Curve {
  readonly startPa: number;
  readonly startSigmaPa: number;
  /** At the isolation, Pa/s. */
  readonly slope: number;
  /** k, 1/s; and the ends of its two-sigma range, the high one infinite where a step cannot be ruled out. */
  readonly bend: number;
  readonly bendLow: number;
  readonly bendHigh: number;
  /** The plateaus that go with the range of k. */
  readonly plateauLowPa: number;
  readonly plateauHighPa: number;
  readonly straight: { readonly startPa: number; readonly slope: number; readonly slopeSigma: number };
  readonly endPa: number;
}

/** Of the reading: no gauge shows less scatter than the last digit of its display. */
const LEAST_SCATTER = 0.002;
/** Readings from which their own scatter says more than the gauge's data sheet. */
const ENOUGH_FOR_SCATTER = 6;
/** Of k times the time held: from a line to a step in the first thirtieth. */
const BENDS = [0, ...Array.from({ length: 120 }, (_, i) => 0.02 * 1500 ** (i / 119))];
/** Two sigma of one parameter. */
const CHI_SQUARE = 4;

interface Fit {
  readonly k: number;
  readonly start: number;
  readonly slope: number;
  readonly startVariance: number;
  readonly slopeVariance: number;
  readonly chiSquare: number;
}

const rise = (k: number, t: number): number => (k * t < 1e-6 ? t : -Math.expm1(-k * t) / k);

/** Weighted straight fit of the pressures over the risen shape, for one k. */
function fitWith(k: number, readings: readonly VacuumReading[], relativeSigma: number): Fit {
  let [w, wx, wy, wxx, wxy] = [0, 0, 0, 0, 0];
  for (const { seconds, pressurePa } of readings) {
    const weight = 1 / (relativeSigma * pressurePa) ** 2;
    const x = rise(k, seconds);
    w += weight;
    wx += weight * x;
    wy += weight * pressurePa;
    wxx += weight * x * x;
    wxy += weight * x * pressurePa;
  }
  const determinant = w * wxx - wx * wx;
  const slope = (w * wxy - wx * wy) / determinant;
  const start = (wy - slope * wx) / w;
  const chiSquare = readings.reduce(
    (sum, { seconds, pressurePa }) =>
      sum + ((pressurePa - start - slope * rise(k, seconds)) / (relativeSigma * pressurePa)) ** 2,
    0,
  );
  return { k, start, slope, startVariance: wxx / determinant, slopeVariance: w / determinant, chiSquare };
}

/** What the readings scatter by, relative: their own where there are enough of them, else the gauge's. */
function scatterOf(readings: readonly VacuumReading[], best: Fit, gaugeSigma: number): number {
  if (readings.length < ENOUGH_FOR_SCATTER) return Math.max(LEAST_SCATTER, gaugeSigma);
  return Math.max(LEAST_SCATTER, Math.sqrt(best.chiSquare / (readings.length - 3)));
}

/**
 * Fits start, slope and bend to three or more readings at different times; the shape by the scatter of the readings
 * themselves, since a gauge's error of scale bends no curve. Undefined for fewer.
 */
export function vacuumCurve(readings: readonly VacuumReading[], gaugeRelativeSigma: number): Curve | undefined {
  const last = readings.reduce((most, { seconds }) => Math.max(most, seconds), 0);
  if (new Set(readings.map(({ seconds }) => seconds)).size < 3) return undefined;
  // With a sigma of one the sum of squares is the scatter itself.
  const fits = BENDS.map((bend) => fitWith(bend / last, readings, 1));
  const best = fits.reduce((a, b) => (b.chiSquare < a.chiSquare ? b : a));
  const variance = scatterOf(readings, best, gaugeRelativeSigma) ** 2;
  const likely = fits.filter((fit) => (fit.chiSquare - best.chiSquare) / variance <= CHI_SQUARE);
  const plateaus = likely.map((fit) => (fit.k === 0 ? Number.POSITIVE_INFINITY : fit.start + fit.slope / fit.k));
  const [line] = fits;
  const highest = likely.at(-1) ?? best;
  return {
    startPa: best.start,
    startSigmaPa: Math.sqrt(best.startVariance * variance),
    slope: best.slope,
    bend: best.k,
    bendLow: likely[0]?.k ?? best.k,
    bendHigh: highest === fits.at(-1) ? Number.POSITIVE_INFINITY : highest.k,
    plateauLowPa: Math.min(...plateaus),
    plateauHighPa: Math.max(...plateaus),
    straight: {
      startPa: line?.start ?? best.start,
      slope: line?.slope ?? best.slope,
      slopeSigma: Math.sqrt((line?.slopeVariance ?? best.slopeVariance) * variance),
    },
    endPa: best.start + best.slope * rise(best.k, last),
  };
}
