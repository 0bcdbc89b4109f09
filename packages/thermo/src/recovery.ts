import type { ThermoFault } from './fault.ts';
import { massLeft } from './mass-left.ts';
import { figure } from './reason.ts';
import type { Reason } from './reason.ts';
import { saturation } from './saturation.ts';

export type RecoveryMode = 'vapour' | 'liquid' | 'push-pull';

/** A cylinder at hand, as cylinder room knows it. */
export interface CylinderAtHand {
  readonly id: string;
  /** Null for one that holds nothing yet. */
  readonly refrigerant: string | null;
  readonly roomKg: number;
  readonly mayFill: boolean;
}

export interface RecoveryInput {
  readonly refrigerant: string;
  /** Absolute, now. */
  readonly pressureKpa: number;
  readonly temperatureK: number;
  /** Of the site. */
  readonly barometerKpa: number;
  /** What the law asks for the class of the appliance; null where none is asked. */
  readonly lawStopKpa: number | null;
  /** The part leaks and cannot be shut off from the rest. */
  readonly openLeak: boolean;
  readonly volumeM3: number;
  readonly oilKg?: number;
  /** What is believed to be inside still; without it the vapour alone is counted. */
  readonly chargeLeftKg?: number;
  readonly mode: RecoveryMode;
  /** From the machine's plate, which rules. */
  readonly gramsPerMinute?: number;
  readonly cylinders?: readonly CylinderAtHand[];
}

export interface RecoveryAdvice {
  readonly ok: true;
  readonly stopKpa: number;
  /** Common practice on an open leak: at the site's pressure, since going lower draws air in. */
  readonly stopBecause: 'law' | 'open-leak' | 'nothing-asked';
  readonly isAtStop: boolean;
  /** What is to come yet until the stop; null where it cannot be told (liquid inside, charge not known). */
  readonly toComeGrams: number | null;
  /** In the volume and its oil at the stop. */
  readonly leftLowGrams: number;
  readonly leftHighGrams: number;
  /** What each further kilopascal would bring. */
  readonly gramsPerKpa: number;
  readonly minutesLow: number | null;
  readonly minutesHigh: number | null;
  /** The least roomy one that takes all of it; null where none does, or none was given. */
  readonly cylinderId: string | null;
  readonly reasons: readonly Reason[];
}

const GRAMS_PER_POUND = 453.59237;
/** Of the dew pressure: a gauge and a thermometer tell no finer. */
const LIQUID_FROM = 0.95;
/** Common practice, pounds a minute; the machine's plate wins. */
const RATES: Readonly<Record<RecoveryMode, { low: number; high: number }>> = {
  vapour: { low: 0.2, high: 0.5 },
  liquid: { low: 3, high: 6 },
  'push-pull': { low: 7, high: 15 },
};

function stopOf({
  lawStopKpa,
  barometerKpa,
  openLeak,
}: RecoveryInput): Pick<RecoveryAdvice, 'stopKpa' | 'stopBecause'> {
  // Neither lower, for the air, nor higher: with a leak that cannot be shut off the law allows nothing above 0 gauge.
  if (openLeak) return { stopKpa: barometerKpa, stopBecause: 'open-leak' };
  return { stopKpa: lawStopKpa ?? barometerKpa, stopBecause: lawStopKpa === null ? 'nothing-asked' : 'law' };
}

const STOP_WORDS: Readonly<Record<RecoveryAdvice['stopBecause'], string>> = {
  law: 'as the law asks',
  'open-leak': "the site's own pressure, since the open leak would draw air in below it",
  'nothing-asked': 'the site’s own pressure; no level is asked',
};

/** Grams between here and the stop: of the charge believed inside, else of vapour alone. */
function toCome(input: RecoveryInput, leftGrams: number): number | null {
  if (input.chargeLeftKg !== undefined) return Math.max(0, input.chargeLeftKg * 1000 - leftGrams);
  const { refrigerant, temperatureK } = input;
  const at = saturation({ refrigerant, temperatureK });
  // So near to saturation there is liquid, and pressure no longer says how much.
  if (at.ok && input.pressureKpa > LIQUID_FROM * at.dewPressureKpa) return null;
  const now = massLeft({ ...input, oilKg: 0 });
  return now.ok ? Math.max(0, now.grams - leftGrams) : null;
}

function minutesOf({ mode, gramsPerMinute }: RecoveryInput, grams: number | null) {
  if (grams === null) return { minutesLow: null, minutesHigh: null };
  const { low, high } = RATES[mode];
  return {
    minutesLow: grams / (gramsPerMinute ?? high * GRAMS_PER_POUND),
    minutesHigh: grams / (gramsPerMinute ?? low * GRAMS_PER_POUND),
  };
}

/** One gas to a cylinder; a part-filled one of that gas before an empty one, the least roomy first. */
function cylinderFor({ cylinders = [], refrigerant }: RecoveryInput, grams: number | null): CylinderAtHand | undefined {
  if (grams === null) return undefined;
  return cylinders
    .filter((one) => one.mayFill && one.roomKg * 1000 >= grams)
    .filter((one) => one.refrigerant === refrigerant || one.refrigerant === null)
    .toSorted((a, b) => Number(a.refrigerant === null) - Number(b.refrigerant === null) || a.roomKg - b.roomKg)[0];
}

function reasonsOf(input: RecoveryInput, advice: Omit<RecoveryAdvice, 'reasons'>): Reason[] {
  const reasons: Reason[] = [
    {
      text: `Stop at ${figure(advice.stopKpa, 1)} kPa absolute: ${STOP_WORDS[advice.stopBecause]}.`,
      source: advice.stopBecause === 'law' ? 'evacuation level asked for this appliance' : 'common practice',
    },
    {
      text: `There ${figure(advice.leftLowGrams, 0)} to ${figure(advice.leftHighGrams, 0)} g stay behind; a kilopascal less brings ${figure(advice.gramsPerKpa, 2)} g.`,
      source: 'vapour by its virial equation; oil 5 to 20 % of its mass: common practice',
    },
  ];
  if (advice.minutesLow !== null && advice.minutesHigh !== null)
    reasons.push({
      text: `${figure(advice.toComeGrams ?? 0, 0)} g to come: ${figure(advice.minutesLow, 0)} to ${figure(advice.minutesHigh, 0)} min.`,
      source: input.gramsPerMinute === undefined ? 'usual rates: common practice' : "the machine's plate",
    });
  reasons.push({
    text: 'After the stop wait 5 min: if pressure rises, gas leaves the oil, so go on. Keep the cylinder cool, and on the scale.',
    source: 'common practice',
  });
  return reasons;
}

/**
 * Where to stop a recovery, what stays behind there, about how long it takes yet, and which cylinder takes it. kPa absolute,
 * K, m3. The law's level comes from the rulebook; on a leak that cannot be shut off the site's own pressure is the floor.
 */
export function recoveryAdvice(input: RecoveryInput): RecoveryAdvice | ThermoFault {
  const stop = stopOf(input);
  const left = massLeft({ ...input, pressureKpa: Math.min(stop.stopKpa, input.pressureKpa) });
  if (!left.ok) return left;
  const toComeGrams = toCome(input, left.grams);
  const advice = {
    ok: true,
    ...stop,
    isAtStop: input.pressureKpa <= stop.stopKpa,
    toComeGrams,
    leftLowGrams: left.lowGrams,
    leftHighGrams: left.highGrams,
    gramsPerKpa: left.gramsPerKpa,
    ...minutesOf(input, toComeGrams),
    cylinderId: cylinderFor(input, toComeGrams)?.id ?? null,
  } as const;
  return { ...advice, reasons: reasonsOf(input, advice) };
}
