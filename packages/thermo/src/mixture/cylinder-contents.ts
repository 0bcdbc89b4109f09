import { NO_ANSWER } from '../fault.ts';
import type { ThermoFault } from '../fault.ts';
import { CUBIC_SOURCE } from '../constants.ts';
import { figure } from '../reason.ts';
import type { Reason } from '../reason.ts';
import { doubtsOf, inModelRange, isFault, molesOf, named, OUT_OF_MODEL_RANGE, unknownPairs } from './amounts.ts';
import type { Amounts } from './amounts.ts';
import { inClosedVolume } from './closed-volume.ts';
import type { Contents } from './closed-volume.ts';
import { mixtureOf, modelAt } from './model.ts';

export interface CylinderContentsInput {
  /** kg by standard number; `air` and `nitrogen` may stand in it. */
  readonly massesKg: Amounts;
  /** Inner volume; rigid. */
  readonly volumeM3: number;
  readonly temperatureK: number;
}

export interface CylinderContents {
  readonly ok: true;
  readonly pressureKpa: number;
  /** `vapour` also names a gas above its critical point, `liquid-full` a dense one. */
  readonly phase: 'two-phase' | 'vapour' | 'liquid-full';
  readonly liquidVolumeFraction: number;
  /** Null where there is no such phase. */
  readonly liquidMoleFractions: Amounts | null;
  readonly vapourMoleFractions: Amounts | null;
  readonly pairsWithoutParameters: readonly string[];
  readonly reasons: readonly Reason[];
}

const PHASE_WORDS = { 'two-phase': 'liquid and vapour', vapour: 'vapour alone', 'liquid-full': 'full of liquid' };

function reasonsOf({ temperatureK, volumeM3 }: CylinderContentsInput, state: Contents): Reason[] {
  const reasons: Reason[] = [
    {
      text: `${figure(volumeM3 * 1000, 3)} L at ${figure(temperatureK)} K: ${PHASE_WORDS[state.phase]}, ${figure(state.pa / 1000, 1)} kPa absolute, ${figure(state.liquidVolumeFraction * 100, 1)} % of the volume liquid.`,
      source: CUBIC_SOURCE,
    },
  ];
  if (state.phase === 'liquid-full')
    reasons.push({
      text: 'Full of liquid, pressure rises steeply with every kelvin; this figure is good to about 10 %. Such a cylinder may burst.',
      source: CUBIC_SOURCE,
    });
  return reasons;
}

/**
 * What known masses do in a rigid volume (m3) at a temperature (K, 180 to 450) at equilibrium: absolute pressure (kPa),
 * phase, part of the volume that is liquid, composition of both phases. Against the reference: pressure within 0.1 %,
 * liquid fraction within 0.001 for pure fluids and shipped blends; air's part of the pressure within 6 %, plus what is not
 * known of its solubility.
 */
export function cylinderContents(input: CylinderContentsInput): CylinderContents | ThermoFault {
  const moles = molesOf(input.massesKg, 'kg');
  if (isFault(moles)) return moles;
  if (!inModelRange(input.temperatureK)) return OUT_OF_MODEL_RANGE;
  const total = Object.values(moles).reduce((sum, n) => sum + n, 0);
  const model = modelAt(mixtureOf(moles), input.temperatureK);
  const state = inClosedVolume(model, input.volumeM3 / total);
  if (!state) return NO_ANSWER;
  return {
    ok: true,
    pressureKpa: state.pa / 1000,
    phase: state.phase,
    liquidVolumeFraction: state.liquidVolumeFraction,
    liquidMoleFractions: state.x ? named(model.names, state.x) : null,
    vapourMoleFractions: state.y ? named(model.names, state.y) : null,
    pairsWithoutParameters: unknownPairs(model.names),
    reasons: [...reasonsOf(input, state), ...doubtsOf(model.names)],
  };
}
