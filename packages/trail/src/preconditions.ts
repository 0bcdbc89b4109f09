/** What must hold before a look is worth making, as data. A look whose precondition fails finds nothing: its chance is zero. */
import type { InstrumentClassId } from './instruments.ts';
import type { LookMethodId } from './methods.ts';

/** What is known where the look is to be made. What is absent is not known and stops nothing. */
export interface Conditions {
  /** The circuit's gas is of class A2L, A2, A3 or B2L and above. */
  readonly flammable?: boolean | undefined;
  readonly inside?: 'refrigerant' | 'nitrogen' | 'trace-gas' | 'vacuum' | undefined;
  /** Pressure inside above that of the place, kPa gauge. */
  readonly pressureKpaGauge?: number | undefined;
  /** Of the gas at ambient temperature, kPa gauge. */
  readonly saturationKpaGauge?: number | undefined;
  readonly detector?: InstrumentClassId | undefined;
  readonly running?: boolean | undefined;
  readonly surface?: 'dry' | 'wet' | undefined;
  readonly wind?: boolean | undefined;
  readonly dyeAllowed?: boolean | undefined;
}

type Fact = keyof Conditions;
type Amount = 'pressureKpaGauge' | 'saturationKpaGauge';

/** Something that is known and stands against the look. A fact that is not known never does. */
export type Against =
  | { readonly of: Fact; readonly is: readonly (string | boolean)[] }
  | { readonly of: Fact; readonly isNot: readonly string[] }
  | { readonly of: Amount; readonly atMost: number }
  | { readonly of: Amount; readonly below: number; readonly times: Amount };

export interface Precondition {
  readonly code:
    | 'ignition'
    | 'no-gas-for-detector'
    | 'pressure-too-low'
    | 'surface-wet'
    | 'wind'
    | 'running'
    | 'refrigerant-inside'
    | 'dye-not-allowed'
    | 'nothing-inside';
  readonly methods: readonly LookMethodId[];
  /** Fails when all of these hold. */
  readonly fails: readonly [Against, ...Against[]];
  /** At most 20 words: what is wrong, then what would be right. */
  readonly text: string;
  /** Going on regardless can injure somebody. Otherwise the look is only worth nothing. */
  readonly hurts: boolean;
  readonly basis: 'common practice';
}

/** Bubbles form from about 1 bar gauge. */
const BUBBLES_KPA_GAUGE = 100;
/** A detector wants about half of saturation at ambient. */
const SHARE_OF_SATURATION = 0.5;
const rule = (row: Omit<Precondition, 'basis' | 'hurts'> & { readonly hurts?: true }): Precondition => ({
  hurts: false,
  ...row,
  basis: 'common practice',
});

const BUBBLES = ['soap', 'nitrogen-soap'] as const;
const WITH_PRESSURE = ['ultrasonic', 'isolate-section'] as const;
const NOTHING = 'No pressure inside: this look would see nothing.';

/** In the order in which they are told. */
export const PRECONDITIONS: readonly Precondition[] = [
  rule({
    code: 'ignition',
    methods: ['electronic'],
    fails: [
      { of: 'detector', is: ['corona'] },
      { of: 'flammable', is: [true] },
    ],
    text: 'A corona detector can ignite this gas: take another kind, ventilate.',
    hurts: true,
  }),
  rule({
    code: 'no-gas-for-detector',
    methods: ['electronic'],
    fails: [{ of: 'inside', is: ['nitrogen', 'vacuum'] }],
    text: 'The detector senses refrigerant and none is inside: use soap or trace gas.',
  }),
  rule({
    code: 'pressure-too-low',
    methods: ['electronic'],
    fails: [
      { of: 'inside', isNot: ['nitrogen', 'vacuum'] },
      { of: 'pressureKpaGauge', below: SHARE_OF_SATURATION, times: 'saturationKpaGauge' },
    ],
    text: 'Too little gas for the detector: it wants half of saturation at ambient.',
  }),
  rule({
    code: 'running',
    methods: ['isolate-section'],
    fails: [{ of: 'running', is: [true] }],
    text: 'The unit runs: switch off and lock out before closing valves.',
    hurts: true,
  }),
  rule({
    code: 'refrigerant-inside',
    methods: ['nitrogen-soap', 'trace-gas', 'standing-pressure', 'vacuum-rise'],
    fails: [{ of: 'inside', is: ['refrigerant'] }],
    text: 'Refrigerant is inside: recover it first, to the level the law asks.',
  }),
  rule({
    code: 'nothing-inside',
    methods: BUBBLES,
    fails: [{ of: 'inside', is: ['vacuum'] }],
    text: 'A vacuum makes no bubbles: release it with nitrogen first.',
  }),
  rule({
    code: 'pressure-too-low',
    methods: BUBBLES,
    fails: [
      { of: 'inside', isNot: ['vacuum'] },
      { of: 'pressureKpaGauge', atMost: BUBBLES_KPA_GAUGE },
    ],
    text: 'Bubbles need more than 1 bar gauge (14.5 psig) inside.',
  }),
  rule({ code: 'nothing-inside', methods: WITH_PRESSURE, fails: [{ of: 'inside', is: ['vacuum'] }], text: NOTHING }),
  rule({
    code: 'nothing-inside',
    methods: WITH_PRESSURE,
    fails: [
      { of: 'inside', isNot: ['vacuum'] },
      { of: 'pressureKpaGauge', atMost: 0 },
    ],
    text: NOTHING,
  }),
  rule({
    code: 'surface-wet',
    methods: BUBBLES,
    fails: [{ of: 'surface', is: ['wet'] }],
    text: 'The surface is wet: dry it, then soap.',
  }),
  rule({
    code: 'wind',
    methods: BUBBLES,
    fails: [{ of: 'wind', is: [true] }],
    text: 'Wind breaks the film: shield the place first.',
  }),
  rule({
    code: 'dye-not-allowed',
    methods: ['dye'],
    fails: [{ of: 'dyeAllowed', is: [false] }],
    text: 'The maker does not allow dye: use trace gas.',
  }),
];
