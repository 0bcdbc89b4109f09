/** So many moles in so large a volume at one temperature: the pressure, and what is liquid. */
import { fallingZero } from '../root.ts';
import { phaseOf } from './cubic.ts';
import { densitiesOf } from './density.ts';
import type { Densities } from './density.ts';
import { findEdge, flashAt } from './edges.ts';
import type { EdgePoint } from './boundary.ts';
import { splitFrom } from './flash.ts';
import type { Flash } from './flash.ts';
import { thermalPressure } from './internal-pressure.ts';
import { at } from './linear.ts';
import { LOWEST_K, modelAt } from './model.ts';
import type { Model } from './model.ts';
import { GAS_CONSTANT } from '../constants.ts';

export interface Contents {
  readonly pa: number;
  readonly phase: 'two-phase' | 'vapour' | 'liquid-full';
  /** Part of the volume. */
  readonly liquidVolumeFraction: number;
  /** Part of the moles. */
  readonly vapourMoleFraction: number;
  /** Absent where there is no such phase. */
  readonly x: Float64Array | undefined;
  readonly y: Float64Array | undefined;
}

/** ln p to a millionth of a millionth: a bracket this narrow is one pressure. */
const TOLERANCE = 1e-12;
/** Bubble and dew closer than this are one boiling pressure, as of a pure fluid. */
const ONE_PRESSURE = 1e-7;
const HIGHEST_PA = 2e8;
/** A logarithm and back. */
const ROUNDING = 1e-12;

interface Edges {
  readonly bubble: EdgePoint | undefined;
  readonly dew: EdgePoint | undefined;
}

/** What is asked: m3/mol in all, and the model and volumes to answer with. */
interface Asked {
  readonly model: Model;
  readonly densities: Densities;
  readonly volume: number;
}

/** ln of a ratio of volumes falls with pressure; its zero is the answer. */
const pressureWhere = (
  volumeAt: (pa: number) => number | undefined,
  { volume, lowPa, highPa }: { volume: number; lowPa: number; highPa: number },
): number | undefined => {
  const ln = fallingZero(
    (lnPa) => {
      const v = volumeAt(Math.exp(lnPa));
      return v === undefined ? undefined : Math.log(v / volume);
    },
    { low: Math.log(lowPa), high: Math.log(highPa), tolerance: TOLERANCE },
  );
  return ln === undefined ? undefined : Math.exp(ln);
};

function allVapour({ model, densities, volume }: Asked, highPa: number): Contents | undefined {
  const { cubic, z } = model;
  const volumeAt = (pa: number) => densities.vapour(z, phaseOf(cubic, z, { pa, root: 'vapour' }).volume, pa);
  // No vapour here is compressed to a fiftieth of the ideal pressure.
  const lowPa = Math.min(highPa, (0.02 * GAS_CONSTANT * cubic.temperatureK) / volume);
  const pa = pressureWhere(volumeAt, { volume, lowPa, highPa });
  if (pa === undefined) return undefined;
  return { pa, phase: 'vapour', liquidVolumeFraction: 0, vapourMoleFraction: 1, x: undefined, y: model.z };
}

/** How far below its temperature a compressed liquid is followed: beyond, some 100 MPa are passed. */
const COLDEST_BELOW_K = 120;

/**
 * Compressed liquid: along the isochore from the temperature at which it would just fill the volume, which the liquid fits
 * know far better than the cubic knows how a liquid is compressed. Steep: 0.2 % off at the one
 * liquid point of the reference (R-134a, 4.7 MPa), elsewhere perhaps a tenth.
 */
function allLiquid({ model, volume }: Asked): Contents | undefined {
  const goal = model.cubic.temperatureK;
  const saturatedAt = (temperatureK: number) => {
    const colder = modelAt(model, temperatureK);
    const bubble = findEdge(colder, 'bubble');
    return bubble && { colder, bubble, volume: densitiesOf(colder).liquid(model.z, bubble.feedPhase.volume) };
  };
  const fullAtK = fallingZero(
    (temperatureK) => {
      const at = saturatedAt(temperatureK);
      return at && Math.log(volume / at.volume);
    },
    { low: Math.max(LOWEST_K, goal - COLDEST_BELOW_K), high: goal, tolerance: 1e-6 },
  );
  const full = fullAtK === undefined ? undefined : saturatedAt(fullAtK);
  if (!full || Math.abs(full.volume / volume - 1) > 1e-4) return undefined;
  const perKelvin = thermalPressure(full.colder, full.bubble, full.volume);
  const pa = full.bubble.pa + perKelvin * (goal - full.colder.cubic.temperatureK);
  return { pa, phase: 'liquid-full', liquidVolumeFraction: 1, vapourMoleFraction: 0, x: model.z, y: undefined };
}

type TwoPhases = Extract<Flash, { phases: 2 }>;

function ofSplit({ densities, volume }: Asked, split: TwoPhases, pa: number): Contents {
  const liquid = (1 - split.vapour) * densities.liquid(split.x, split.liquidPhase.volume);
  const liquidVolumeFraction = Math.min(1, Math.max(0, liquid / volume));
  return {
    pa,
    phase: 'two-phase',
    liquidVolumeFraction,
    vapourMoleFraction: split.vapour,
    x: split.x,
    y: split.y,
  };
}

const volumeOf = (densities: Densities, split: TwoPhases, pa: number): number =>
  (1 - split.vapour) * densities.liquid(split.x, split.liquidPhase.volume) +
  split.vapour * densities.vapour(split.y, split.vapourPhase.volume, pa);

/** Boils at one pressure: the lever rule between the two volumes. */
function byLever({ model, densities, volume }: Asked, bubble: EdgePoint): Contents {
  const liquid = densities.liquid(model.z, bubble.feedPhase.volume);
  const vapour = densities.vapour(bubble.incipient, bubble.incipientPhase.volume, bubble.pa);
  const vapourMoleFraction = (volume - liquid) / (vapour - liquid);
  return {
    pa: bubble.pa,
    phase: 'two-phase',
    liquidVolumeFraction: ((1 - vapourMoleFraction) * liquid) / volume,
    vapourMoleFraction,
    x: model.z,
    y: bubble.incipient,
  };
}

/** Between dew and bubble point, each split started from the one before. */
function between(asked: Asked, bubble: EdgePoint, dew: EdgePoint): Contents | undefined {
  const { model, densities, volume } = asked;
  if (bubble.pa / dew.pa - 1 < ONE_PRESSURE) return byLever(asked, bubble);
  let lnK: Float64Array = bubble.incipient.map((y, i) => Math.log(y / at(model.z, i)));
  let last: { split: TwoPhases; pa: number } | undefined;
  const volumeAt = (pa: number): number | undefined => {
    if (pa > bubble.pa * (1 - ROUNDING)) return densities.liquid(model.z, bubble.feedPhase.volume);
    if (pa < dew.pa * (1 + ROUNDING)) return densities.vapour(model.z, dew.feedPhase.volume, dew.pa);
    const found = splitFrom(model.cubic, model.z, { pa, lnK }) ?? flashAt(model, pa);
    if (found?.phases !== 2) return undefined;
    lnK = found.lnK;
    last = { split: found, pa };
    return volumeOf(densities, found, pa);
  };
  const pa = pressureWhere(volumeAt, { volume, lowPa: dew.pa, highPa: bubble.pa });
  if (pa === undefined || volumeAt(pa) === undefined || !last) return undefined;
  return ofSplit(asked, last.split, last.pa);
}

interface Tried {
  readonly volume: number;
  readonly found: Flash;
}

/** The stable state at a pressure, and its volume. */
function stateAt({ model, densities }: Asked, pa: number): Tried | undefined {
  const found = flashAt(model, pa);
  if (!found) return undefined;
  if (found.phases === 2) return { volume: volumeOf(densities, found, pa), found };
  const own = found.phase.volume;
  const volume = found.kind === 'liquid' ? densities.liquid(model.z, own) : densities.vapour(model.z, own, pa);
  return { volume, found };
}

/** A pressure below and one above the answer: an edge where one is known, else by strides until the volume says so. */
function bracketOf(asked: Asked, { bubble, dew }: Edges): { lowPa: number; highPa: number } {
  const isWide = (pa: number): boolean => (stateAt(asked, pa)?.volume ?? asked.volume) > asked.volume;
  let lowPa = dew?.pa ?? (0.1 * GAS_CONSTANT * asked.model.cubic.temperatureK) / asked.volume;
  if (!dew) while (lowPa > 1 && !isWide(lowPa)) lowPa /= 4;
  let highPa = bubble?.pa ?? lowPa * 1.5;
  if (!bubble) while (highPa < HIGHEST_PA && isWide(highPa)) highPa *= 1.5;
  return { lowPa, highPa };
}

/** With no bubble or no dew point known: by the stability test at every pressure tried. */
function bySearch(asked: Asked, edges: Edges): Contents | undefined {
  const { model, volume } = asked;
  const pa = pressureWhere((p) => stateAt(asked, p)?.volume, { volume, ...bracketOf(asked, edges) });
  const state = pa === undefined ? undefined : stateAt(asked, pa);
  // A jump of the volume, not a zero: the state that was asked for lies inside it and was not found.
  if (pa === undefined || !state || Math.abs(state.volume / volume - 1) > 1e-3) return undefined;
  if (state.found.phases === 2) return ofSplit(asked, state.found, pa);
  return state.found.kind === 'liquid'
    ? { pa, phase: 'liquid-full', liquidVolumeFraction: 1, vapourMoleFraction: 0, x: model.z, y: undefined }
    : { pa, phase: 'vapour', liquidVolumeFraction: 0, vapourMoleFraction: 1, x: undefined, y: model.z };
}

/**
 * The state of a model's mixture in a rigid volume (m3 per mole of the whole). Undefined when no answer settles, or the
 * liquid would stand above 200 MPa.
 */
export function inClosedVolume(model: Model, volume: number): Contents | undefined {
  const asked: Asked = { model, densities: densitiesOf(model), volume };
  const { densities } = asked;
  const edges: Edges = { bubble: findEdge(model, 'bubble'), dew: findEdge(model, 'dew') };
  const { bubble, dew } = edges;
  if (dew && densities.vapour(model.z, dew.feedPhase.volume, dew.pa) <= volume) return allVapour(asked, dew.pa);
  if (bubble && densities.liquid(model.z, bubble.feedPhase.volume) >= volume) return allLiquid(asked);
  return bubble && dew ? between(asked, bubble, dew) : bySearch(asked, edges);
}
