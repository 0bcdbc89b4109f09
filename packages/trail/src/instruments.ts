/** Kinds of instrument a leak is looked for with: what they sense, and what they cannot stand. */
import type { LookMethodId } from './methods.ts';

export interface InstrumentClass {
  readonly id: string;
  readonly words: string;
  readonly method: LookMethodId;
  /** What one of the class is taken to sense where its own figure is not known, g/yr. */
  readonly senseGramsPerYear: number;
  readonly source: string;
  /** What must hold, as read on site; what can be told from facts stands in `PRECONDITIONS` too. */
  readonly preconditions: readonly string[];
}

const SCALES = 'SAE J2791: scales of 4, 7 and 14 g/yr; the coarsest taken';
const GAS_INSIDE = 'Its gas inside at half of saturation or more.';

export const INSTRUMENT_CLASSES = [
  {
    id: 'heated-diode',
    words: 'Heated diode',
    method: 'electronic',
    senseGramsPerYear: 14,
    source: SCALES,
    preconditions: [GAS_INSIDE, 'Keep it off oil: oil poisons it, and it dies with hours.'],
  },
  {
    id: 'infrared',
    words: 'Infrared',
    method: 'electronic',
    senseGramsPerYear: 14,
    source: SCALES,
    preconditions: [GAS_INSIDE, 'Keep the tip moving: it answers to change.'],
  },
  {
    id: 'semiconductor',
    words: 'Semiconductor',
    method: 'electronic',
    senseGramsPerYear: 14,
    source: SCALES,
    preconditions: [GAS_INSIDE, 'Let it warm up; solvents and cleaners set it off.'],
  },
  {
    id: 'corona',
    words: 'Corona discharge',
    method: 'electronic',
    senseGramsPerYear: 14,
    source: SCALES,
    preconditions: [GAS_INSIDE, 'Never near a flammable gas: it can ignite it.'],
  },
  {
    id: 'ultrasonic',
    words: 'Ultrasonic receiver',
    method: 'ultrasonic',
    senseGramsPerYear: 300,
    source: 'common practice: some hundreds of grams a year and up',
    preconditions: ['Pressure inside.', 'Quiet surroundings.'],
  },
  {
    id: 'hydrogen',
    words: 'Hydrogen sensor',
    method: 'trace-gas',
    senseGramsPerYear: 5,
    source: 'from memory: 1 to 5 g/yr with 5 % hydrogen in nitrogen',
    preconditions: ['Refrigerant recovered.', 'Ready-mixed 5 % hydrogen in nitrogen, never mixed on site.'],
  },
  {
    id: 'other',
    words: 'Another kind',
    method: 'electronic',
    senseGramsPerYear: 14,
    source: SCALES,
    preconditions: [GAS_INSIDE],
  },
] as const satisfies readonly InstrumentClass[];
export type InstrumentClassId = (typeof INSTRUMENT_CLASSES)[number]['id'];
