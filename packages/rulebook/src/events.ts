/**
 * What happened to one circuit, as the law looks at it. The rulebooks read only these fields; a caller's richer
 * object fits by structure.
 */
import type { Day, EnteredMass, Instant } from '@ullage/units';

/** An instant, or a day with a place in its order when nobody wrote down the hour. */
export type When = Instant | { readonly on: Day; readonly seq: number };

interface Happened {
  readonly id: string;
  readonly at: When;
  /** The attendance it belongs to; without it, all of one day in the site's zone is one visit. */
  readonly visit?: string;
}

export interface Addition extends Happened {
  readonly kind: 'addition';
  /** Null when nobody knows: such an addition counts for days, and gives no calculation. */
  readonly mass: EnteredMass | null;
  readonly seasonal?: boolean;
  readonly retrofit?: boolean;
  readonly installation?: boolean;
  /** Id of an earlier addition made for the same leak. */
  readonly sameLeakAs?: string;
  readonly by?: 'us' | 'other';
}
export interface Removal extends Happened {
  readonly kind: 'removal';
  readonly mass: EnteredMass | null;
  readonly seasonal?: boolean;
  readonly by?: 'us' | 'other';
}
export interface LeakFound extends Happened {
  readonly kind: 'leak-found';
  readonly leakId: string;
  readonly place?: string;
}
export interface Repair extends Happened {
  readonly kind: 'repair';
  readonly leakId: string;
  /** Whether the appliance, or the part worked on, was evacuated. */
  readonly evacuated: boolean;
}
export interface Verification extends Happened {
  readonly kind: 'initial-verification' | 'follow-up-verification';
  /** Empty means every leak known by then. */
  readonly leakIds: readonly string[];
  readonly result: 'pass' | 'fail';
}
export interface Inspection extends Happened {
  readonly kind: 'inspection';
  /** `pass`: no leak found. Either result discharges the duty to inspect. */
  readonly result: 'pass' | 'fail';
  readonly leakIds?: readonly string[];
  readonly inaccessible?: string;
}
export interface PartDue extends Happened {
  readonly kind: 'part-due';
  /** Day of delivery, promised or (when `delivered`) real. */
  readonly on: Day;
  readonly delivered?: boolean;
  /** The leaks that wait for the part. Empty means all. */
  readonly leakIds: readonly string[];
}
export interface Extension extends Happened {
  readonly kind: 'extension';
  readonly requestedOn: Day;
  readonly grantedUntilOn?: Day;
  readonly reason: string;
}
export interface Plan extends Happened {
  readonly kind: 'plan';
  readonly planKind: 'retrofit' | 'retirement';
  /** The plan's own date. */
  readonly on: Day;
  /** The end of its schedule. */
  readonly completeOn?: Day;
}
export interface ReliefRequest extends Happened {
  readonly kind: 'relief-request';
  readonly on: Day;
  readonly answeredOn?: Day;
  readonly granted?: boolean;
}
export interface FullChargeEvent extends Happened {
  readonly kind: 'full-charge';
  readonly mass: EnteredMass;
  readonly method?: FullChargeMethod;
  readonly low?: EnteredMass;
  readonly high?: EnteredMass;
}
/** The report on a chronic leaker went out. */
export interface ChronicReport extends Happened {
  readonly kind: 'chronic-report';
  readonly year: number;
}
export interface Purged extends Happened {
  readonly kind: 'purged';
  readonly mass: EnteredMass;
  readonly destroyedPercent: number;
  readonly noticedOn?: Day;
}
export interface RunningHours extends Happened {
  readonly kind: 'running-hours';
  readonly hours: number;
}
/** Statements that carry nothing but their instant. */
export interface Statement extends Happened {
  readonly kind:
    | 'normal-operation'
    | 'shutdown-needed'
    | 'mothball'
    | 'return-to-service'
    | 'retrofit'
    | 'installation'
    | 'retired'
    | 'owner-told'
    | 'owner-declined'
    | 'detection-alarm'
    | 'detection-audit';
}

export type FullChargeMethod = 'manufacturer' | 'calculated' | 'measured' | 'range';

export type CircuitEvent =
  | Addition
  | Removal
  | LeakFound
  | Repair
  | Verification
  | Inspection
  | PartDue
  | Extension
  | Plan
  | ReliefRequest
  | FullChargeEvent
  | ChronicReport
  | Purged
  | RunningHours
  | Statement;
