import type { VisitView } from '@ullage/contracts';
import { chargeState, saturation } from '@ullage/thermo';
import { SIGMA } from '../commands/site-readings.ts';

type BranchView = NonNullable<VisitView['branch']>;

const SAYS: Readonly<Record<BranchView['state'], { title: string; next: string }>> = {
  'liquid-present': { title: 'Liquid is inside.', next: 'Search with its own gas: off, locked out, detector first.' },
  'vapour-only': {
    title: 'Only vapour is left.',
    next: 'Off, locked out, detector; the pressure is low, so go close and slow.',
  },
  empty: {
    title: 'Empty: it stands at site pressure.',
    next: 'Do not run it. Low nitrogen, ears and eyes first, then bubbles. Recover what is left all the same.',
  },
  'above-saturation': {
    title: 'Above saturation: air or another gas.',
    next: 'Check what gas is inside before anything goes on. Do not mix it with clean gas.',
  },
  'cannot-tell': {
    title: 'The readings cannot tell.',
    next: 'Let it rest, read again with a better gauge. If gas is there: off, locked out, detector.',
  },
};

/** What the first readings say of the charge, and how the search goes on. Null for a gas that physics does not know. */
export function branchOf(given: {
  refrigerant: string;
  standingKpa: number;
  ambientK: number;
  barometerKpa: number;
}): VisitView['branch'] {
  const { refrigerant, standingKpa, ambientK, barometerKpa } = given;
  const state = chargeState({
    refrigerant,
    pressureKpa: standingKpa,
    temperatureK: ambientK,
    barometerKpa,
    pressureSigmaKpa: SIGMA.gaugeKpa,
    temperatureSigmaK: SIGMA.thermometerK,
  });
  if (!state.ok) return null;
  const lines = saturation({ refrigerant, temperatureK: ambientK });
  const bubbleKpa = lines.ok ? lines.bubblePressureKpa : null;
  const dewKpa = lines.ok ? lines.dewPressureKpa : null;
  return { state: state.state, ...SAYS[state.state], dewKpa, bubbleKpa, readKpa: standingKpa };
}
