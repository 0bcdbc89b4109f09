/** How steeply a liquid without room gains pressure with temperature. */
import type { EdgePoint } from './boundary.ts';
import { residualEnergy } from './cubic.ts';
import type { Cubic } from './cubic.ts';
import { modelAt } from './model.ts';
import type { Model } from './model.ts';

/** K either side, for the slope of the attraction. */
const STEP_K = 0.5;

/**
 * Pa/K along the isochore of a saturated liquid of real volume `volume` (m3/mol): the internal pressure, T dp/dT - p, is
 * that liquid's energy of vaporisation over its volume (Hildebrand and Scott, The Solubility of Nonelectrolytes, 1950, who
 * find about 1.0 to 1.1 of it; 1 is taken). The cubic knows energies well, but not how a liquid is compressed.
 */
export function thermalPressure(model: Model, bubble: EdgePoint, volume: number): number {
  const { temperatureK } = model.cubic;
  const [colder, warmer] = [-STEP_K, STEP_K].map((step) => modelAt(model, temperatureK + step).cubic) as [Cubic, Cubic];
  const energy = (cubicVolume: number) => residualEnergy(model.cubic, model.z, { volume: cubicVolume, colder, warmer });
  const ofVaporisation = energy(bubble.incipientPhase.volume) - energy(bubble.feedPhase.volume);
  return (ofVaporisation / volume + bubble.pa) / temperatureK;
}
