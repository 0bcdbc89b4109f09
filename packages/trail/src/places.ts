/** Where a leak can be: the tick list of a search. Common practice of the trade; no published list has this form. */

export const LEAK_ZONES = [
  { id: 'outdoor', words: 'Outdoor unit' },
  { id: 'indoor', words: 'Indoor unit or case' },
  { id: 'lines', words: 'Lines' },
  { id: 'machine-room', words: 'Compressor and machine room' },
  { id: 'unknown', words: 'Not known' },
] as const;
export type LeakZone = (typeof LEAK_ZONES)[number]['id'];

export interface LeakPlace {
  readonly id: string;
  /** As said on site; begins with a capital. */
  readonly words: string;
  readonly zone: LeakZone;
  readonly basis: 'common practice';
}

const inZone = <Z extends LeakZone, const R extends readonly (readonly [id: string, words: string])[]>(
  zone: Z,
  rows: R,
): { readonly id: R[number][0]; readonly words: string; readonly zone: Z; readonly basis: 'common practice' }[] =>
  rows.map(([id, words]) => ({ id, words, zone, basis: 'common practice' }));

export const LEAK_PLACES = [
  ...inZone('outdoor', [
    ['service-valve-core', 'Service valve core'],
    ['service-valve-cap', 'Service valve cap or seal'],
    ['service-valve-stem', 'Service valve stem packing'],
    ['condenser-return-bend', 'Condenser return bend'],
    ['condenser-tube', 'Condenser tube in fin pack'],
    ['microchannel', 'Microchannel tube or header'],
    ['reversing-valve', 'Reversing valve body or pilot tubes'],
    ['accumulator', 'Accumulator (rust)'],
  ]),
  ...inZone('indoor', [
    ['evaporator-return-bend', 'Evaporator return bend'],
    ['evaporator-tube', 'Evaporator tube in fin pack'],
    ['evaporator-tube-sheet', 'Evaporator tube sheet rub'],
    ['evaporator-header', 'Evaporator header or distributor'],
    ['distributor-tubes', 'Distributor tubes'],
    ['expansion-valve', 'Expansion valve body, bulb tube or nut'],
    ['case-header', 'Case or rack hub, header'],
  ]),
  ...inZone('lines', [
    ['flare-nut', 'Flare nut'],
    ['braze-joint-field', 'Braze joint, made on site'],
    ['braze-joint-factory', 'Braze joint, factory'],
    ['mechanical-coupling', 'Press or screw coupling'],
    ['line-set-hidden', 'Line set, hidden'],
    ['line-set-wall', 'Line set, wall passage'],
    ['filter-drier-joint', 'Filter-drier joint'],
    ['liquid-sight-glass', 'Liquid sight glass'],
    ['solenoid-valve', 'Solenoid valve'],
    ['ball-valve-stem', 'Ball valve stem'],
    ['injection-line', 'Hot-gas or liquid injection line'],
  ]),
  ...inZone('machine-room', [
    ['compressor-terminals', 'Compressor terminals'],
    ['compressor-shaft-seal', 'Compressor shaft seal (open drive)'],
    ['compressor-body', 'Compressor body or gasket'],
    ['crankcase-sight-glass', 'Crankcase sight glass'],
    ['compressor-line', 'Suction or discharge line crack'],
    ['pressure-tap', 'Capillary or pressure tap tube'],
    ['pressure-switch', 'Pressure switch connection'],
    ['receiver', 'Receiver or fusible plug'],
    ['relief-valve-seat', 'Relief valve seat'],
    ['heat-recovery-coil', 'Heat recovery coil'],
    ['purge-unit', 'Purge unit (low pressure)'],
    ['rupture-disc', 'Rupture disc'],
  ]),
  ...inZone('unknown', [['unknown', 'Place not known']]),
] as const satisfies readonly LeakPlace[];
export type LeakPlaceId = (typeof LEAK_PLACES)[number]['id'];
