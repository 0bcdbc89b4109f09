/**
 * Why it leaked, kept apart from where: the same cause at ever new places says "replace", not "repair again".
 * Common practice of the trade throughout.
 */
export interface LeakCause {
  readonly id: string;
  readonly words: string;
  readonly signs: string;
  readonly remedy: string;
  readonly comesBack: string;
  readonly basis: 'common practice';
}

const basis = 'common practice';

export const CAUSES = [
  {
    id: 'vibration',
    words: 'Vibration fatigue',
    signs: 'Crack at a stub or near the compressor; after service.',
    remedy: 'Re-route, add a loop, clamp.',
    comesBack: 'Yes, unless clamped.',
    basis,
  },
  {
    id: 'formicary-corrosion',
    words: 'Formicary (ant-nest) corrosion',
    signs: 'Several pinholes in an indoor copper coil; new furniture or cleaners.',
    remedy: 'Replace the coil by an aluminium or tinned one.',
    comesBack: 'A patch fails in months.',
    basis,
  },
  {
    id: 'outdoor-corrosion',
    words: 'Galvanic, salt or pool-air corrosion',
    signs: 'Outdoor coil or steel accumulator.',
    remedy: 'Coated coil.',
    comesBack: 'Yes.',
    basis,
  },
  {
    id: 'rub-out',
    words: 'Rub-out',
    signs: 'Tube on tube, tie wrap, fin edge.',
    remedy: 'Sleeve or move the tube.',
    comesBack: 'No.',
    basis,
  },
  {
    id: 'flare-workmanship',
    words: 'Flare workmanship',
    signs: 'No oil, split or double flare, over-tight nut.',
    remedy: 'New flare, torque wrench, oil on the back only.',
    comesBack: 'In the first year.',
    basis,
  },
  {
    id: 'braze-workmanship',
    words: 'Braze workmanship',
    signs: 'Pit, no fillet; in the first months.',
    remedy: 'Braze again with nitrogen flowing.',
    comesBack: 'No.',
    basis,
  },
  {
    id: 'cap-or-core',
    words: 'Cap left off or core worn',
    signs: 'Fine oil at the core.',
    remedy: 'New core, and a cap with its seal.',
    comesBack: 'When the cap is left off again.',
    basis,
  },
  {
    id: 'mechanical-damage',
    words: 'Mechanical damage',
    signs: 'Nail, mower, ladder: plain to see.',
    remedy: 'Repair.',
    comesBack: 'No.',
    basis,
  },
  {
    id: 'overpressure',
    words: 'Liquid hammer or overpressure',
    signs: 'Relief valve lifted, part burst.',
    remedy: 'Find what drove the pressure first.',
    comesBack: 'Yes.',
    basis,
  },
  {
    id: 'factory-defect',
    words: 'Factory defect',
    signs: 'Within the warranty.',
    remedy: "Maker's part.",
    comesBack: 'No.',
    basis,
  },
  {
    id: 'unknown',
    words: 'Cause not known',
    signs: 'None of the signs fits.',
    remedy: 'Repair, and look again at the next visit.',
    comesBack: 'Not known.',
    basis,
  },
] as const satisfies readonly LeakCause[];
export type LeakCauseId = (typeof CAUSES)[number]['id'];
