/** How a leak can be looked for. Sizes are always g/yr with their source, never "small" or "large". */

export interface Sensitivity {
  /** The least loss sensed under good and under ordinary conditions. */
  readonly bestGramsPerYear: number;
  readonly usualGramsPerYear: number;
  readonly refrigerant: string;
  readonly source: string;
}

export interface LookMethod {
  readonly id: string;
  readonly words: string;
  /** Whether it gives the place. 40 CFR 82.152 "Leak inspection": a method that does not counts only beside one that does. */
  readonly locates: boolean;
  /** What must hold before it is begun, as read on site. */
  readonly preconditions: readonly string[];
  /** Absent where no figure with a source exists. */
  readonly sensitivity?: Sensitivity;
  /** What it senses half the time in the field, g/yr: the ordinary sensitivity, else common practice or an assumption. */
  readonly fieldGramsPerYear: number;
  /** What can hurt. Local codes and licensed practice come first. */
  readonly caution?: string;
  /** Of the order and the preconditions. */
  readonly basis: 'common practice';
}

const basis = 'common practice';
const NITROGEN =
  "Regulator and relief valve on, never above the nameplate's test pressure. Never oxygen. Local codes and licensed practice rule.";

/** In the order in which they are usually taken. */
export const LOOK_METHODS = [
  {
    id: 'eyes-and-ears',
    words: 'Eyes and ears',
    locates: true,
    // Oil must have come out and be in sight: an assumption.
    fieldGramsPerYear: 600,
    preconditions: ['Look for oil, missing caps, rubbing and ice before anything is wiped.'],
    basis,
  },
  {
    id: 'electronic',
    words: 'Electronic detector',
    locates: true,
    fieldGramsPerYear: 14,
    preconditions: [
      'Its gas is inside, at half of saturation at ambient or more.',
      'The detector passed its check today.',
      'No corona detector near a flammable gas.',
    ],
    sensitivity: {
      bestGramsPerYear: 4,
      usualGramsPerYear: 14,
      refrigerant: 'R-134a',
      source: 'SAE J2791: scales of 4, 7 and 14 g/yr',
    },
    caution: 'Locked out near fans and live parts. With a flammable gas: ventilate, no ignition source.',
    basis,
  },
  {
    id: 'soap',
    words: 'Soap bubbles',
    locates: true,
    fieldGramsPerYear: 130,
    preconditions: ['More than 1 bar gauge inside.', 'Surface dry and out of the wind.', 'Watch for 1 to 5 minutes.'],
    sensitivity: {
      bestGramsPerYear: 13,
      usualGramsPerYear: 130,
      refrigerant: 'R-134a',
      source: 'From memory: 1e-5 to 1e-4 Pa·m³/s, at 20 °C',
    },
    caution: 'Keep bubbles off live terminals: lock out first.',
    basis,
  },
  {
    id: 'ultrasonic',
    words: 'Ultrasonic',
    locates: true,
    // Some hundreds and up: common practice.
    fieldGramsPerYear: 300,
    preconditions: ['Quiet surroundings.', 'Pressure inside.', 'Large leaks only.'],
    basis,
  },
  {
    id: 'isolate-section',
    words: 'Isolate sections',
    locates: false,
    // Computed: 1 psi in one hour from 10 L, as for standing pressure.
    fieldGramsPerYear: 18_000,
    preconditions: ['Unit off, service valves closed.', 'Gas inside each section.'],
    caution: 'Never shut liquid in between two closed valves: it bursts the line as it warms.',
    basis,
  },
  {
    id: 'nitrogen-soap',
    words: 'Nitrogen and soap',
    locates: true,
    // At several times the pressure of its own gas: an assumption.
    fieldGramsPerYear: 50,
    preconditions: ['Refrigerant recovered first.', 'Surface dry and out of the wind.'],
    caution: NITROGEN,
    basis,
  },
  {
    id: 'trace-gas',
    words: 'Trace gas',
    locates: true,
    fieldGramsPerYear: 5,
    preconditions: ['Refrigerant recovered first.', '5 % hydrogen in nitrogen, ready mixed, or helium.'],
    sensitivity: {
      bestGramsPerYear: 1,
      usualGramsPerYear: 5,
      refrigerant: 'equivalent',
      source: 'From memory: 5 % hydrogen in nitrogen with a good sensor',
    },
    caution: NITROGEN,
    basis,
  },
  {
    id: 'standing-pressure',
    words: 'Standing pressure',
    locates: false,
    fieldGramsPerYear: 750,
    preconditions: ['Refrigerant recovered first.', 'Temperature read at start and end.'],
    sensitivity: {
      bestGramsPerYear: 750,
      usualGramsPerYear: 750,
      refrigerant: 'R-410A',
      source: 'Computed: 1 psi in 24 h from 10 L, ideal gas at 20 °C',
    },
    caution: NITROGEN,
    basis,
  },
  {
    id: 'dye',
    words: 'Dye',
    locates: true,
    fieldGramsPerYear: 7,
    preconditions: ['The maker allows it.', 'Days of running, and a return visit.'],
    sensitivity: {
      bestGramsPerYear: 7,
      usualGramsPerYear: 7,
      refrigerant: 'R-134a',
      source: 'From memory: after days of running',
    },
    basis,
  },
  {
    id: 'vacuum-rise',
    words: 'Vacuum rise',
    locates: false,
    // As standing pressure: an assumption.
    fieldGramsPerYear: 750,
    preconditions: ['Refrigerant recovered first.', 'Last of all: it draws air in through the leak.'],
    caution: 'Never run a compressor, or measure its insulation, in a vacuum.',
    basis,
  },
] as const satisfies readonly LookMethod[];
export type LookMethodId = (typeof LOOK_METHODS)[number]['id'];
