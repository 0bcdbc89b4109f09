/** What stands at a site: kinds of equipment with the gases and charges that are usual for them (common practice). */
import type { Equipment, Use } from '@ullage/rulebook';
import type { Chance } from './chance.ts';
import type { Trade } from './names.ts';

export type KindName = 'rack' | 'cold-room' | 'walk-in' | 'small' | 'rooftop' | 'split' | 'vrf' | 'chiller' | 'process';
interface Kind {
  readonly words: readonly string[];
  /** One that stands twice is twice as likely. */
  readonly gases: readonly string[];
  readonly use: Use;
  readonly equipment: Equipment;
  /** Full charge in pounds, and the step it is rounded to. */
  readonly pounds: readonly [least: number, most: number, step: number];
}
const HFC_COLD = ['R-448A', 'R-448A', 'R-449A', 'R-449A', 'R-404A', 'R-507A'];
export const KINDS: Readonly<Record<KindName, Kind>> = {
  rack: {
    words: ['Low-temperature rack', 'Medium-temperature rack', 'Rack A', 'Rack B'],
    gases: HFC_COLD,
    use: 'commercial-refrigeration',
    equipment: 'rack',
    pounds: [120, 420, 10],
  },
  'cold-room': {
    words: ['Cold room 1', 'Cold room 2', 'Freezer room', 'Blast chiller', 'Cutting room'],
    gases: HFC_COLD,
    use: 'commercial-refrigeration',
    equipment: 'other',
    pounds: [18, 58, 2],
  },
  'walk-in': {
    words: ['Walk-in cooler', 'Walk-in freezer', 'Beer cellar', 'Prep-line cooler'],
    gases: ['R-448A', 'R-449A', 'R-404A', 'R-134a', 'R-404A'],
    use: 'commercial-refrigeration',
    equipment: 'other',
    pounds: [6, 14, 1],
  },
  small: {
    words: ['Ice machine', 'Reach-in case', 'Flower case', 'Display case'],
    gases: ['R-404A', 'R-134a', 'R-448A'],
    use: 'commercial-refrigeration',
    equipment: 'other',
    pounds: [2, 5, 1],
  },
  rooftop: {
    words: ['Rooftop, sales floor', 'Rooftop, east', 'Rooftop, west', 'Rooftop, offices'],
    gases: ['R-410A', 'R-410A', 'R-410A', 'R-407C', 'R-22', 'R-454B'],
    use: 'comfort-cooling',
    equipment: 'rooftop',
    pounds: [11, 34, 1],
  },
  split: {
    words: ['Split, server closet', 'Split, office', 'Split, reception', 'Split, manager’s room'],
    gases: ['R-410A', 'R-410A', 'R-454B', 'R-22'],
    use: 'comfort-cooling',
    equipment: 'split',
    pounds: [5, 12, 1],
  },
  vrf: {
    words: ['Variable-flow system, floors 1 to 2', 'Variable-flow system, guest wing'],
    gases: ['R-410A'],
    use: 'comfort-cooling',
    equipment: 'variable-flow',
    pounds: [24, 46, 2],
  },
  chiller: {
    words: ['Chiller 1', 'Chiller 2', 'Chiller, plant room'],
    gases: ['R-134a', 'R-134a', 'R-513A', 'R-407C'],
    use: 'comfort-cooling',
    equipment: 'chiller',
    pounds: [90, 340, 10],
  },
  process: {
    words: ['Process chiller', 'Glycol chiller', 'Mould cooling', 'Press cooling'],
    gases: ['R-134a', 'R-404A', 'R-507A', 'R-22'],
    use: 'industrial-process-refrigeration',
    equipment: 'other',
    pounds: [52, 160, 2],
  },
};

/** What stands at a site of each trade; a site has a first part of one of them. */
export const OUTFITS: Readonly<Record<Trade, readonly (readonly KindName[])[]>> = {
  grocer: [
    ['rack', 'rooftop', 'walk-in', 'small'],
    ['rack', 'cold-room', 'rooftop'],
    ['cold-room', 'walk-in', 'split'],
  ],
  'cold-store': [
    ['cold-room', 'cold-room', 'split'],
    ['rack', 'cold-room', 'cold-room'],
  ],
  kitchen: [
    ['walk-in', 'small'],
    ['walk-in', 'walk-in', 'rooftop'],
    ['walk-in', 'small', 'split'],
  ],
  building: [
    ['chiller', 'split'],
    ['rooftop', 'rooftop', 'split'],
    ['vrf', 'split'],
  ],
  works: [['process', 'rooftop'], ['process'], ['process', 'split', 'split']],
};

/** A full charge of a kind in whole pounds. */
export function chargeOf(kind: KindName, chance: Chance): number {
  const [least, most, step] = KINDS[kind].pounds;
  return least + step * chance.int(0, Math.floor((most - least) / step));
}

interface Gauges {
  /** At rest, below saturation of a cool plant room. */
  readonly standing: string;
  readonly suction: string;
  readonly discharge: string;
}
/** Gauge readings in psig that nobody would look twice at (common practice). */
export const GAUGES: Readonly<Record<string, Gauges>> = {
  'R-134a': { standing: '48', suction: '31', discharge: '148' },
  'R-513A': { standing: '50', suction: '34', discharge: '152' },
  'R-22': { standing: '92', suction: '64', discharge: '218' },
  'R-407C': { standing: '96', suction: '66', discharge: '236' },
  'R-410A': { standing: '152', suction: '121', discharge: '352' },
  'R-454B': { standing: '142', suction: '114', discharge: '328' },
  'R-404A': { standing: '112', suction: '38', discharge: '246' },
  'R-507A': { standing: '116', suction: '40', discharge: '252' },
  'R-448A': { standing: '102', suction: '34', discharge: '232' },
  'R-449A': { standing: '101', suction: '33', discharge: '229' },
};

export interface LeakKind {
  readonly place:
    | 'flare-nut'
    | 'pressure-tap'
    | 'braze-joint-field'
    | 'ball-valve-stem'
    | 'evaporator-return-bend'
    | 'service-valve-core'
    | 'condenser-return-bend'
    | 'filter-drier-joint'
    | 'relief-valve-seat'
    | 'mechanical-coupling';
  readonly where: string;
  readonly repair: string;
}
const COLD_LEAKS: readonly LeakKind[] = [
  { place: 'flare-nut', where: 'Expansion valve of the last coil', repair: 'New flare and nut, to the maker’s torque' },
  {
    place: 'pressure-tap',
    where: 'Low-pressure control tube',
    repair: 'Capillary replaced and clamped clear of the frame',
  },
  {
    place: 'braze-joint-field',
    where: 'Liquid header, second tee',
    repair: 'Joint cut out and brazed anew under nitrogen',
  },
  { place: 'ball-valve-stem', where: 'Liquid ball valve by the receiver', repair: 'Stem packing replaced, cap fitted' },
  { place: 'evaporator-return-bend', where: 'Coil, lower left', repair: 'Return bend cut out and replaced' },
];
const AIR_LEAKS: readonly LeakKind[] = [
  { place: 'service-valve-core', where: 'Suction service valve', repair: 'Valve core and cap replaced' },
  { place: 'condenser-return-bend', where: 'Condenser, fan side', repair: 'Return bend brazed under nitrogen' },
  { place: 'filter-drier-joint', where: 'Filter-drier outlet', repair: 'Filter-drier replaced, joint brazed anew' },
];
const CHILLER_LEAKS: readonly LeakKind[] = [
  { place: 'relief-valve-seat', where: 'Relief valve of the condenser', repair: 'Relief valve replaced' },
  { place: 'mechanical-coupling', where: 'Oil line coupling', repair: 'Coupling resealed and tightened' },
];
export function leaksOf(kind: KindName): readonly LeakKind[] {
  if (kind === 'chiller' || kind === 'process') return CHILLER_LEAKS;
  return ['rooftop', 'split', 'vrf'].includes(kind) ? AIR_LEAKS : COLD_LEAKS;
}
