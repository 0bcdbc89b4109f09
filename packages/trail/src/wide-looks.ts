/** Looks that cover several places at once: less keen at each, but cheap. Assumptions from memory. */
import { LEAK_PLACES } from './places.ts';
import type { LeakPlaceId, LeakZone } from './places.ts';
import type { LookMethodId } from './methods.ts';

export interface WideLook {
  readonly id: string;
  readonly words: string;
  readonly method: LookMethodId;
  readonly covers: readonly LeakPlaceId[];
  readonly minutes: number;
  /** How many times larger a leak must be than for a look close by. */
  readonly dulled: number;
}

const zone = (id: LeakZone): LeakPlaceId[] => LEAK_PLACES.filter((place) => place.zone === id).map((place) => place.id);
const INDOOR_COIL: readonly LeakPlaceId[] = [
  'evaporator-return-bend',
  'evaporator-tube',
  'evaporator-tube-sheet',
  'evaporator-header',
  'distributor-tubes',
];

export const WIDE_LOOKS: readonly WideLook[] = [
  {
    id: 'valves',
    words: 'Service valves: cores, caps and stems',
    method: 'electronic',
    covers: ['service-valve-core', 'service-valve-cap', 'service-valve-stem'],
    minutes: 4,
    dulled: 1,
  },
  {
    id: 'eyes-outdoor',
    words: 'Outdoor unit, all round',
    method: 'eyes-and-ears',
    covers: zone('outdoor'),
    minutes: 4,
    dulled: 1,
  },
  {
    id: 'eyes-indoor',
    words: 'Indoor unit or case',
    method: 'eyes-and-ears',
    covers: zone('indoor'),
    minutes: 8,
    dulled: 1,
  },
  {
    id: 'eyes-lines',
    words: 'Lines and their joints',
    method: 'eyes-and-ears',
    covers: zone('lines').filter((id) => id !== 'line-set-hidden'),
    minutes: 8,
    dulled: 1,
  },
  {
    id: 'eyes-machine-room',
    words: 'Compressor and machine room',
    method: 'eyes-and-ears',
    covers: zone('machine-room'),
    minutes: 5,
    dulled: 1,
  },
  {
    id: 'drain-pan',
    words: 'Drain pan, for the whole indoor coil',
    method: 'electronic',
    covers: INDOOR_COIL,
    minutes: 10,
    dulled: 4,
  },
  {
    id: 'isolate-indoor',
    words: 'Indoor side, shut off by itself',
    method: 'isolate-section',
    covers: zone('indoor'),
    minutes: 70,
    dulled: 1,
  },
  {
    id: 'isolate-outdoor',
    words: 'Outdoor side, shut off by itself',
    method: 'isolate-section',
    covers: zone('outdoor'),
    minutes: 70,
    dulled: 1,
  },
  {
    id: 'pressure-indoor',
    words: 'Indoor half under nitrogen',
    method: 'standing-pressure',
    covers: zone('indoor'),
    minutes: 1450,
    dulled: 1,
  },
];

/** The wide look that a recorded one was, by what it covered and how: undefined for a look close by. */
export const wideLookOf = (method: string, places: readonly string[]): WideLook | undefined =>
  WIDE_LOOKS.find(
    (wide) =>
      wide.method === method &&
      wide.covers.length === new Set(places).size &&
      wide.covers.every((id) => places.includes(id)),
  );
