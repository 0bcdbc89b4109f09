import type { LookMethodId } from './methods.ts';

/** What is known where the look is to be made. What is absent is not known and stops nothing. */
export interface LookConditions {
  readonly method: LookMethodId;
  /** The circuit's gas is of class A2L, A2, A3 or B2L and above. */
  readonly flammable?: boolean | undefined;
  readonly inside?: 'refrigerant' | 'nitrogen' | 'trace-gas' | 'vacuum' | undefined;
  /** Pressure inside above that of the place, kPa gauge. */
  readonly pressureKpaGauge?: number | undefined;
  /** Of the gas at ambient temperature, kPa gauge. */
  readonly saturationKpaGauge?: number | undefined;
  readonly detector?: 'corona' | 'heated-diode' | 'infrared' | 'semiconductor' | 'other' | undefined;
  readonly running?: boolean | undefined;
  readonly surface?: 'dry' | 'wet' | undefined;
  readonly wind?: boolean | undefined;
  readonly dyeAllowed?: boolean | undefined;
}
export interface LookStop {
  readonly code:
    | 'ignition'
    | 'no-gas-for-detector'
    | 'pressure-too-low'
    | 'surface-wet'
    | 'wind'
    | 'running'
    | 'refrigerant-inside'
    | 'dye-not-allowed'
    | 'nothing-inside';
  /** At most 20 words: what is wrong, then what would be right. */
  readonly text: string;
  /** Going on regardless can injure somebody. */
  readonly hurts: boolean;
}

/** Bubbles form from about 1 bar gauge: common practice. */
const BUBBLES_KPA_GAUGE = 100;
/** A detector wants about half of saturation at ambient: common practice. */
const DETECTOR_SHARE_OF_SATURATION = 0.5;

/** Why a look by this method should not be made now; empty when nothing known stands against it. Common practice. */
export function methodStops(at: LookConditions): LookStop[] {
  switch (at.method) {
    case 'electronic':
      return [...ignition(at), ...gasForDetector(at)];
    case 'soap':
      return [...bubbles(at), ...surface(at)];
    case 'ultrasonic':
      return pressureAbove(at, 0);
    case 'isolate-section':
      return [...running(at), ...pressureAbove(at, 0)];
    case 'nitrogen-soap':
      return [...recoverFirst(at), ...bubbles(at), ...surface(at)];
    case 'trace-gas':
    case 'standing-pressure':
    case 'vacuum-rise':
      return recoverFirst(at);
    case 'dye':
      return at.dyeAllowed === false ? [stop('dye-not-allowed', 'The maker does not allow dye: use trace gas.')] : [];
    case 'eyes-and-ears':
      return [];
  }
}

const stop = (code: LookStop['code'], text: string, hurts = false): LookStop => ({ code, text, hurts });

function ignition({ detector, flammable }: LookConditions): LookStop[] {
  if (detector !== 'corona' || flammable !== true) return [];
  return [stop('ignition', 'A corona detector can ignite this gas: take another kind, ventilate.', true)];
}

function gasForDetector({ inside, pressureKpaGauge, saturationKpaGauge }: LookConditions): LookStop[] {
  if (inside === 'nitrogen' || inside === 'vacuum')
    return [stop('no-gas-for-detector', 'The detector senses refrigerant and none is inside: use soap or trace gas.')];
  if (pressureKpaGauge === undefined || saturationKpaGauge === undefined) return [];
  if (pressureKpaGauge >= saturationKpaGauge * DETECTOR_SHARE_OF_SATURATION) return [];
  return [stop('pressure-too-low', 'Too little gas for the detector: it wants half of saturation at ambient.')];
}

function bubbles({ inside, pressureKpaGauge }: LookConditions): LookStop[] {
  if (inside === 'vacuum')
    return [stop('nothing-inside', 'A vacuum makes no bubbles: release it with nitrogen first.')];
  if (pressureKpaGauge === undefined || pressureKpaGauge > BUBBLES_KPA_GAUGE) return [];
  return [stop('pressure-too-low', 'Bubbles need more than 1 bar gauge (14.5 psig) inside.')];
}

function pressureAbove({ inside, pressureKpaGauge }: LookConditions, kpaGauge: number): LookStop[] {
  if (inside !== 'vacuum' && (pressureKpaGauge === undefined || pressureKpaGauge > kpaGauge)) return [];
  return [stop('nothing-inside', 'No pressure inside: this look would see nothing.')];
}

function surface({ surface: state, wind }: LookConditions): LookStop[] {
  return [
    ...(state === 'wet' ? [stop('surface-wet', 'The surface is wet: dry it, then soap.')] : []),
    ...(wind === true ? [stop('wind', 'Wind breaks the film: shield the place first.')] : []),
  ];
}

function running(at: LookConditions): LookStop[] {
  return at.running === true
    ? [stop('running', 'The unit runs: switch off and lock out before closing valves.', true)]
    : [];
}

function recoverFirst({ inside }: LookConditions): LookStop[] {
  return inside === 'refrigerant'
    ? [stop('refrigerant-inside', 'Refrigerant is inside: recover it first, to the level the law asks.')]
    : [];
}
