import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { vacuumCurve } from './curve.ts';
import type { Curve, VacuumReading } from './curve.ts';
import { wetSpotTemperatureK } from './water.ts';

export interface VacuumHoldInput {
  /** Isolated from the pump at 0 s. */
  readonly readings: readonly VacuumReading[];
  readonly volumeM3?: number;
  /** One sigma of one reading, relative; 0.1 unless given (common practice). */
  readonly gaugeRelativeSigma?: number;
  /** To be pulled to before the hold: 500 microns unless given, all common practice. */
  readonly targetPa?: number;
  /** Not to be passed in the hold: 1,000 microns. */
  readonly limitPa?: number;
  /** Up to here a steady vacuum is moist: 2,000 microns. */
  readonly moistureLimitPa?: number;
  readonly minSeconds?: number;
}

export interface VacuumHold {
  readonly ok: true;
  readonly verdict: 'tight' | 'leak' | 'moisture' | 'cannot-tell';
  /** Of the straight line through the readings; null with fewer than three. */
  readonly risePaPerS: number | null;
  readonly riseSigmaPaPerS: number | null;
  /** Where it flattens, its two-sigma range, and how fast; null where the readings show no flattening. */
  readonly plateauPa: number | null;
  readonly plateauLowPa: number | null;
  readonly plateauHighPa: number | null;
  readonly timeConstantS: number | null;
  /** Where it runs straight: air coming in. Null otherwise, and without volume. */
  readonly leakPaM3PerS: number | null;
  /** Of the coldest wet spot, were the plateau that of water or ice. */
  readonly wetSpotTemperatureK: number | null;
  readonly reasons: readonly Reason[];
}

const MICRON_PA = 101.325 / 760;
const DEFAULTS = {
  gaugeRelativeSigma: 0.1,
  targetPa: 500 * MICRON_PA,
  limitPa: 1000 * MICRON_PA,
  moistureLimitPa: 2000 * MICRON_PA,
  minSeconds: 600,
};
type Asked = typeof DEFAULTS & { readonly heldS: number };

/** Straight when a time constant of twice the hold is ruled out, flattening when one and a half holds are surpassed. */
const STRAIGHT_BEND = 0.5;
const FLAT_BEND = 0.67;

type Shape = 'straight' | 'flattening' | 'steady' | 'unclear';

function shapeOf(curve: Curve, { heldS, gaugeRelativeSigma }: Asked): Shape {
  const { slope, slopeSigma } = curve.straight;
  const risen = slope * heldS;
  // Nothing that counts has risen: neither by two sigma, nor by what the gauge tells apart.
  if (risen < 2 * slopeSigma * heldS || risen < 2 * gaugeRelativeSigma * curve.startPa) return 'steady';
  if (curve.bendHigh * heldS < STRAIGHT_BEND) return 'straight';
  return curve.bendLow * heldS > FLAT_BEND ? 'flattening' : 'unclear';
}

interface Judged {
  readonly verdict: VacuumHold['verdict'];
  readonly why: string;
}

function judge(curve: Curve, shape: Shape, asked: Asked): Judged {
  const microns = (pa: number) => figure(pa / MICRON_PA, 0);
  const widest = 1 + 2 * asked.gaugeRelativeSigma;
  const least = 1 - 2 * asked.gaugeRelativeSigma;
  const { startPa, endPa } = curve;
  if (endPa * widest <= asked.limitPa) {
    if (startPa * least > asked.targetPa)
      return {
        verdict: 'cannot-tell',
        why: `Began at ${microns(startPa)} microns, above the target: pull deeper first.`,
      };
    if (asked.heldS < asked.minSeconds)
      return {
        verdict: 'cannot-tell',
        why: `Held ${figure(asked.heldS, 0)} s of ${figure(asked.minSeconds, 0)} s: hold longer.`,
      };
    return { verdict: 'tight', why: `Ended at ${microns(endPa)} microns, two sigma inside ${microns(asked.limitPa)}.` };
  }
  if (shape === 'flattening')
    return {
      verdict: 'moisture',
      why: 'It flattens: water, or gas leaving oil. Dry on, with nitrogen and warmth, no torch.',
    };
  if (endPa * least <= asked.limitPa)
    return {
      verdict: 'cannot-tell',
      why: `Ended at ${microns(endPa)} microns, within two sigma of ${microns(asked.limitPa)}.`,
    };
  if (shape === 'straight') return { verdict: 'leak', why: 'It rises straight and does not stop: air comes in.' };
  if (shape === 'steady')
    return endPa * widest <= asked.moistureLimitPa
      ? { verdict: 'moisture', why: `Steady at ${microns(endPa)} microns: moisture, or not pulled long enough.` }
      : { verdict: 'cannot-tell', why: `Steady at ${microns(endPa)} microns: pull again and hold again.` };
  return {
    verdict: 'cannot-tell',
    why: 'Rising, but straight or flattening cannot be told: hold longer, read more often.',
  };
}

function plateauOf(curve: Curve, shape: Shape) {
  if (shape !== 'flattening')
    return { plateauPa: null, plateauLowPa: null, plateauHighPa: null, timeConstantS: null, wetSpotTemperatureK: null };
  const plateauPa = curve.startPa + curve.slope / curve.bend;
  return {
    plateauPa,
    plateauLowPa: curve.plateauLowPa,
    plateauHighPa: curve.plateauHighPa,
    timeConstantS: 1 / curve.bend,
    wetSpotTemperatureK: wetSpotTemperatureK(plateauPa) ?? null,
  };
}

const CAUTION: Reason = {
  text: 'A vacuum hold sees one bar, a pressure test thirty: test with nitrogen first. Never run a compressor in deep vacuum.',
  source: 'common practice',
};

function reasonsOf(
  curve: Curve,
  judged: Judged,
  found: Pick<VacuumHold, 'plateauPa' | 'wetSpotTemperatureK' | 'leakPaM3PerS'>,
) {
  const { slope, slopeSigma } = curve.straight;
  const reasons: Reason[] = [
    { text: judged.why, source: 'limits: common practice, the maker’s first' },
    {
      text: `Rise ${slope.toPrecision(3)} Pa/s, two sigma ${(2 * slopeSigma).toPrecision(2)} Pa/s.`,
      source: 'weighted least squares: straight against p0 + r (1 - exp(-k t)) / k, two sigma by chi-square',
    },
  ];
  if (found.plateauPa !== null && found.wetSpotTemperatureK !== null)
    reasons.push({
      text: `Flattens at ${figure(found.plateauPa / MICRON_PA, 0)} microns: water or ice at ${figure(found.wetSpotTemperatureK - 273.15, 1)} °C would, so look for the coldest spot.`,
      source: 'IAPWS R14-08(2011) for ice, Wagner and Pruss 2002 for water',
    });
  if (found.leakPaM3PerS !== null)
    reasons.push({
      text: `Air comes in at ${found.leakPaM3PerS.toPrecision(3)} Pa m3/s.`,
      source: 'Q = V dp/dt',
    });
  return [...reasons, CAUTION];
}

const NOTHING_FITTED = {
  risePaPerS: null,
  riseSigmaPaPerS: null,
  plateauPa: null,
  plateauLowPa: null,
  plateauHighPa: null,
  timeConstantS: null,
  leakPaM3PerS: null,
  wetSpotTemperatureK: null,
} as const;

/**
 * A vacuum hold: tight, leaking (straight), moist (flattening), or not to be told. Two sigma decide; the level by the
 * gauge, the shape by the readings' own scatter. Pa absolute, seconds from the isolation.
 */
export function vacuumHold(input: VacuumHoldInput): VacuumHold {
  const given = Object.fromEntries(Object.entries(input).filter(([, value]) => value !== undefined));
  const heldS = input.readings.reduce((most, { seconds }) => Math.max(most, seconds), 0);
  const asked: Asked = { ...DEFAULTS, ...given, heldS };
  const curve = vacuumCurve(input.readings, asked.gaugeRelativeSigma);
  if (!curve)
    return {
      ok: true,
      verdict: 'cannot-tell',
      ...NOTHING_FITTED,
      reasons: [{ text: 'Three readings at different times at least: read on.', source: 'common practice' }, CAUTION],
    };
  const shape = shapeOf(curve, asked);
  const judged = judge(curve, shape, asked);
  const plateau = plateauOf(curve, shape);
  const leaks = shape === 'straight' && input.volumeM3 !== undefined;
  const leakPaM3PerS = leaks ? (input.volumeM3 ?? 0) * curve.straight.slope : null;
  return {
    ok: true,
    verdict: judged.verdict,
    risePaPerS: curve.straight.slope,
    riseSigmaPaPerS: curve.straight.slopeSigma,
    ...plateau,
    leakPaM3PerS,
    reasons: reasonsOf(curve, judged, { ...plateau, leakPaM3PerS }),
  };
}
