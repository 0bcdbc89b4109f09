/** The shapes in which the rulebooks are asked and answer. */
import type { Day, EnteredMass, Instant } from '@ullage/units';
import type { CircuitEvent, FullChargeMethod } from './events.ts';

export const RULEBOOK_IDS = ['us-ods', 'us-hfc'] as const;
export type RulebookId = (typeof RULEBOOK_IDS)[number];
export const USES = [
  'commercial-refrigeration',
  'industrial-process-refrigeration',
  'comfort-cooling',
  'refrigerated-transport',
  'other',
] as const;
export type Use = (typeof USES)[number];
export const LEAK_RATE_METHODS = ['annualizing', 'rolling'] as const;
export type LeakRateMethod = (typeof LEAK_RATE_METHODS)[number];
/** `none` records the decision that the circuit is outside the excluded subsector. */
export const SUBSECTORS = ['residential-light-commercial-ac', 'none'] as const;
export type Subsector = (typeof SUBSECTORS)[number];
export const EQUIPMENT = ['chiller', 'rooftop', 'split', 'variable-flow', 'rack', 'other'] as const;
export type Equipment = (typeof EQUIPMENT)[number];

/** One step that a person can check with a pencil, and the published clause behind it. */
export interface Reason {
  readonly text: string;
  readonly source: string;
}

export interface FullCharge {
  /** From this day on; without it, from the beginning. */
  readonly fromOn?: Day;
  readonly mass: EnteredMass;
  readonly method?: FullChargeMethod;
  /** Ends of an established range: its midpoint is the full charge (40 CFR 82.152), and `mass` is not used. */
  readonly low?: EnteredMass;
  readonly high?: EnteredMass;
}

/** What the law asks about one circuit: its "appliance". */
export interface CircuitFacts {
  readonly refrigerant: string;
  readonly use: Use;
  readonly fullCharges: readonly FullCharge[];
  readonly installedOn?: Day;
  readonly subsector?: Subsector;
  readonly equipment?: Equipment;
  /** Leaks here can only be repaired with an industrial process shutdown. */
  readonly processShutdown?: boolean;
}

export interface LeakRateInput extends CircuitFacts {
  readonly rulebook: RulebookId;
  readonly method: LeakRateMethod;
  /** IANA zone of the site: days are counted there. */
  readonly timeZone: string;
  /** Facts after it are left out. */
  readonly asOf: Instant;
  readonly events: readonly CircuitEvent[];
}

/** The rate when gas recovered at the visit is not taken off the gas charged, nor a season's excess set apart. */
export interface AlternativeRate {
  readonly leakMass: EnteredMass;
  readonly exact: string;
  readonly ratePercentPerYear: number;
  readonly over: boolean;
  readonly reading: 'gross-weight';
}

export interface Calculation {
  /** End of the last addition of the day. */
  readonly at: Instant;
  readonly day: Day;
  readonly visits: readonly string[];
  readonly additionIds: readonly string[];
  /** Net, in the full charge's unit. */
  readonly leakMass: EnteredMass;
  /** The rate as an exact share of the full charge per year, `n/d`: `1/5` is 20 %. */
  readonly exact: string;
  /** Days counted (annualizing), or the length of the window (rolling). */
  readonly days: number;
  /** The law's 365 days stand in for the days that really passed. */
  readonly substituted: boolean;
  /** For display only: verdicts compare the exact rate. */
  readonly ratePercentPerYear: number;
  readonly thresholdPercent: number;
  readonly fullCharge: EnteredMass;
  readonly over: boolean;
  readonly alternative?: AlternativeRate;
  /** Opening visit of the leak episode it belongs to. */
  readonly episode: string | null;
  readonly clause: string;
  readonly flags: readonly string[];
  readonly reasons: readonly Reason[];
}

export interface Answer {
  readonly rulebook: RulebookId;
  /** Effective date of the edition that was applied. */
  readonly rulebookVersion: string;
  readonly reasons: readonly Reason[];
}

export interface LeakRateAnswer extends Answer {
  /** Null where the refrigerant or the full charge is not known. */
  readonly inScope: boolean | null;
  readonly thresholdPercent: number | null;
  readonly fullCharge: EnteredMass | null;
  readonly calculations: readonly Calculation[];
  /** What may still be added on the day of `asOf`; null out of scope. */
  readonly headroomMass: EnteredMass | null;
  readonly flags: readonly string[];
}

export interface HeadroomInput extends LeakRateInput {
  /** The visit in progress; otherwise the last one that moved gas on the day. */
  readonly visit?: string;
}

export interface HeadroomAnswer extends Answer {
  /** Rounded down to 0.01 of the unit (1 g for metric); null out of scope. */
  readonly mass: EnteredMass | null;
  /** Exact grams `n/d`, below zero when the circuit is over already. */
  readonly exactGrams: string | null;
  readonly days: number | null;
  readonly flags: readonly string[];
}

export interface ScopeInput {
  readonly refrigerant: string;
  readonly mass: EnteredMass;
  readonly use: Use;
  readonly equipment?: Equipment;
  readonly subsector?: Subsector;
  readonly onDay: Day;
  readonly jurisdictions: readonly RulebookId[];
}

export interface ScopeAnswer extends Answer {
  readonly inScope: boolean | null;
  readonly why: string;
  readonly clause: string;
  readonly flags: readonly string[];
}

export const DUTY_KINDS = [
  'inspection',
  'repair',
  'initial-verification',
  'follow-up-verification',
  'plan',
  'plan-completion',
  'periodic-inspection',
  'extension-request',
  'chronic-report',
] as const;
export type DutyKind = (typeof DUTY_KINDS)[number];
export const DUTY_STATES = [
  'open',
  'discharged',
  'discharged-late',
  'withdrawn',
  'suspended',
  'not-yet-known',
] as const;
export type DutyState = (typeof DUTY_STATES)[number];

export interface Duty {
  /** `rulebook|kind|episode|number`: recomputing updates the duty of the same key. */
  readonly key: string;
  readonly kind: DutyKind;
  readonly episode: string;
  readonly number: number;
  readonly leakIds?: readonly string[];
  readonly rulebook: RulebookId;
  readonly rulebookVersion: string;
  readonly clause: string;
  readonly responsible: 'owner-or-operator';
  readonly sinceAt: Instant;
  /** Not before this instant. */
  readonly opensAt?: Instant;
  /** First instant after `dueOn` in the site's zone. Null until it can be known. */
  readonly dueAt: Instant | null;
  readonly dueOn: Day | null;
  readonly everyMonths?: number;
  /** The date hangs on a statement or a delivery that is not there yet. */
  readonly provisional: boolean;
  readonly state: DutyState;
  readonly dischargedBy: readonly string[];
  readonly ownerToldAt?: Instant;
  readonly ownerDeclinedAt?: Instant;
  readonly why: string;
  readonly flags: readonly string[];
}

export interface DutiesInput {
  readonly rulebooks: readonly RulebookId[];
  readonly method: LeakRateMethod;
  readonly timeZone: string;
  readonly asOf: Instant;
  /** How far periodic duties are listed; without it, up to the next one. */
  readonly until?: Day;
  readonly circuit: CircuitFacts;
  readonly events: readonly CircuitEvent[];
}

export interface Episode {
  /** The opening visit; without visit ids, the opening day. */
  readonly id: string;
  readonly rulebook: RulebookId;
  readonly openedAt: Instant;
  /** Evidence counts from here on: the start of the opening visit, or an earlier linked repair. */
  readonly reachesBackTo: Instant;
  readonly closedAt: Instant | null;
  readonly closedBy: 'verification' | 'plan' | null;
  readonly leakIds: readonly string[];
}

export interface DutiesAnswer {
  readonly duties: readonly Duty[];
  readonly episodes: readonly Episode[];
  readonly rulebookVersions: Readonly<Partial<Record<RulebookId, string>>>;
  readonly reasons: readonly Reason[];
}
