import { NO_ANSWER, unknownRefrigerant } from '../fault.ts';
import type { ThermoFault } from '../fault.ts';
import { CUBIC_SOURCE } from '../constants.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { byMass, doubtsOf, inModelRange, isFault, molesOf, OUT_OF_MODEL_RANGE } from './amounts.ts';
import type { Amounts } from './amounts.ts';
import { inClosedVolume } from './closed-volume.ts';
import { gramsPerMol } from './components.ts';
import { mixtureOf, modelAt } from './model.ts';
import type { Mixture } from './model.ts';

export interface VapourLossInput {
  readonly refrigerant: string;
  /** Inner volume that liquid and vapour share. */
  readonly volumeM3: number;
  /** Before the loss, of nominal composition. */
  readonly massKg: number;
  readonly temperatureK: number;
  /** Of the mass, 0 to below 1, drawn as vapour so slowly that the temperature holds. */
  readonly lostFraction: number;
}

/** How it stands after a part has gone. */
export interface LossStep {
  readonly lostFraction: number;
  readonly pressureKpa: number;
  readonly remainingMassFractions: Amounts;
}

export interface VapourLoss {
  readonly ok: true;
  readonly pressureKpa: number;
  /** Null where no liquid, or no vapour, is left. */
  readonly liquidMassFractions: Amounts | null;
  readonly vapourMassFractions: Amounts | null;
  readonly remainingMassFractions: Amounts;
  /** Percentage points by which the component that moved most has moved. */
  readonly shiftMassPercent: number;
  readonly advice: 'top-up' | 'recover-and-recharge';
  readonly steps: readonly LossStep[];
  readonly reasons: readonly Reason[];
}

/** Common practice draws the line where R-407C stands after a fifth is lost, some three points off. */
const SHIFT_THAT_MATTERS = 3;
const STEP = 0.02;
const SHOWN_STEPS = 10;

interface Charge {
  readonly grams: Readonly<Record<string, number>>;
  readonly volumeM3: number;
  readonly temperatureK: number;
}

interface State {
  readonly pressureKpa: number;
  readonly liquid: Amounts | null;
  readonly vapour: Amounts | null;
  readonly remaining: Amounts;
}

const totalOf = (amounts: Amounts): number => Object.values(amounts).reduce((sum, value) => sum + value, 0);

function mixtureInside({ grams }: Charge): { mixture: Mixture; moles: number } {
  const moles = Object.fromEntries(Object.entries(grams).map(([name, g]) => [name, g / gramsPerMol(name)]));
  return { mixture: mixtureOf(moles), moles: totalOf(moles) };
}

function stateOf(charge: Charge): State | undefined {
  const { mixture, moles } = mixtureInside(charge);
  const contents = inClosedVolume(modelAt(mixture, charge.temperatureK), charge.volumeM3 / moles);
  if (!contents) return undefined;
  const { names } = mixture;
  return {
    pressureKpa: contents.pa / 1000,
    liquid: contents.x ? byMass(names, contents.x) : null,
    vapour: contents.y ? byMass(names, contents.y) : null,
    remaining: byMass(names, mixture.z),
  };
}

/** What is left after `lost` grams of a vapour; undefined where liquid fills the volume, since then no vapour can be drawn. */
function drawn(charge: Charge, vapour: Amounts | null, lost: number): Charge | undefined {
  if (!vapour) return undefined;
  const grams = Object.entries(charge.grams).map(
    ([name, g]) => [name, Math.max(0, g - lost * (vapour[name] ?? 0))] as const,
  );
  return { ...charge, grams: Object.fromEntries(grams) };
}

/** One step by the midpoint rule. */
function oneStep(charge: Charge, lost: number): Charge | undefined {
  const half = drawn(charge, stateOf(charge)?.vapour ?? null, lost / 2);
  return half && drawn(charge, stateOf(half)?.vapour ?? null, lost);
}

function walk(start: Charge, lostFraction: number): { end: Charge; steps: LossStep[] } | undefined {
  const total = totalOf(start.grams);
  const count = Math.max(1, Math.ceil(lostFraction / STEP));
  const steps: LossStep[] = [];
  let charge = start;
  for (let step = 0; step <= count; step++) {
    if (step % Math.ceil(count / SHOWN_STEPS) === 0 || step === count) {
      const state = stateOf(charge);
      if (!state) return undefined;
      steps.push({
        lostFraction: (lostFraction * step) / count,
        pressureKpa: state.pressureKpa,
        remainingMassFractions: state.remaining,
      });
    }
    if (step === count) break;
    const next = lostFraction === 0 ? charge : oneStep(charge, (total * lostFraction) / count);
    if (!next) return undefined;
    charge = next;
  }
  return { end: charge, steps };
}

const percents = (of: Amounts): string =>
  Object.entries(of)
    .map(([name, share]) => `${name} ${figure(share * 100, 1)} %`)
    .join(', ');

/**
 * What is left in a rigid volume (m3) of a blend when a part leaks as vapour at a held temperature (K): steps of 2 % by the
 * midpoint rule. Against the reference: pressure within 0.7 %, composition within 0.5 % by mass. A leak of liquid, or from a
 * running machine, changes the blend less.
 */
export function vapourLoss(input: VapourLossInput): VapourLoss | ThermoFault {
  const moles = molesOf({ [input.refrigerant]: input.massKg }, 'kg');
  if (isFault(moles)) return unknownRefrigerant(input.refrigerant);
  if (!inModelRange(input.temperatureK)) return OUT_OF_MODEL_RANGE;
  const grams = Object.fromEntries(Object.entries(moles).map(([name, n]) => [name, n * gramsPerMol(name)]));
  const { volumeM3, temperatureK } = input;
  const walked = walk({ grams, volumeM3, temperatureK }, input.lostFraction);
  const end = walked && stateOf(walked.end);
  const first = walked?.steps[0];
  if (!walked || !end || !first) return NO_ANSWER;
  const shifts = Object.entries(first.remainingMassFractions).map(([name, share]) =>
    Math.abs((end.remaining[name] ?? 0) - share),
  );
  const shiftMassPercent = 100 * Math.max(...shifts);
  const matters = shiftMassPercent >= SHIFT_THAT_MATTERS;
  return {
    ok: true,
    pressureKpa: end.pressureKpa,
    liquidMassFractions: end.liquid,
    vapourMassFractions: end.vapour,
    remainingMassFractions: end.remaining,
    shiftMassPercent,
    advice: matters ? 'recover-and-recharge' : 'top-up',
    steps: walked.steps,
    reasons: [
      {
        text: `${figure(input.lostFraction * 100, 1)} % lost as vapour at ${figure(temperatureK)} K leaves ${percents(end.remaining)}; it was ${percents(first.remainingMassFractions)}.`,
        source: `mass balance in steps, vapour at equilibrium: ${CUBIC_SOURCE}`,
      },
      {
        text: matters
          ? `Moved by ${figure(shiftMassPercent, 1)} points, ${SHIFT_THAT_MATTERS} or more: recover all and charge new gas.`
          : `Moved by ${figure(shiftMassPercent, 1)} points, less than ${SHIFT_THAT_MATTERS}: topping up with liquid will do.`,
        source: 'common practice; the worst case, liquid leaks shift less',
      },
      ...doubtsOf(Object.keys(grams)),
    ],
  };
}
