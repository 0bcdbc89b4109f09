/** Minutes that a look takes: getting at the place, then looking. Assumptions from memory, of a technician alone with the tools at hand. */
import { LEAK_PLACES } from './places.ts';
import type { LeakPlaceId } from './places.ts';
import type { LookMethodId } from './methods.ts';

/** To get at a place where it is not the zone's usual: what has to be opened to connect gauges costs almost nothing. */
const ACCESS: Partial<Readonly<Record<LeakPlaceId, number>>> = {
  'service-valve-core': 1,
  'service-valve-cap': 1,
  'service-valve-stem': 1,
  'evaporator-tube': 15,
  'evaporator-tube-sheet': 15,
  'condenser-tube': 12,
  'line-set-hidden': 60,
  'line-set-wall': 20,
  'heat-recovery-coil': 15,
};
const ZONE_ACCESS = { outdoor: 8, indoor: 12, lines: 8, 'machine-room': 5, unknown: 30 } as const;

/** Of one place, once one is there; what is needed first (recovery, filling, waiting) is in it. */
const LOOKING: Readonly<Record<LookMethodId, number>> = {
  'eyes-and-ears': 1,
  electronic: 3,
  // Watched for 1 to 5 minutes: common practice.
  soap: 5,
  ultrasonic: 3,
  'isolate-section': 60,
  'nitrogen-soap': 45,
  'trace-gas': 60,
  'standing-pressure': 1440,
  dye: 30,
  'vacuum-rise': 120,
};

/** Minutes for a look by a method at one place; nothing for getting there where somebody stands already. */
export function minutesAt(place: LeakPlaceId, method: LookMethodId, isThere: boolean): number {
  if (isThere) return LOOKING[method];
  const zone = LEAK_PLACES.find(({ id }) => id === place)?.zone ?? 'unknown';
  return (ACCESS[place] ?? ZONE_ACCESS[zone]) + LOOKING[method];
}
