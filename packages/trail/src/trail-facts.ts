/** What a search stands on: facts of the visit, of the unit's past and of the contractor. No clock: instants are only compared. */
import type { CheckResult } from './doubt.ts';
import type { LeakSize, LossRange } from './explains.ts';
import type { LookMethodId } from './methods.ts';
import type { LeakPlaceId } from './places.ts';
import type { Conditions } from './preconditions.ts';
import type { Findings, SignId, EquipmentKind } from './priors.ts';

export const UNIT_STATES = ['off', 'running', 'nitrogen'] as const;
export type UnitState = (typeof UNIT_STATES)[number];

export interface MadeLook {
  /** In UTC, all of one format. */
  readonly at: string;
  /** A look of another visit was made under other conditions, and the leak may be younger. */
  readonly earlierVisit: boolean;
  readonly places: readonly LeakPlaceId[];
  readonly method: LookMethodId;
  readonly instrumentId?: string | undefined;
  readonly senseGramsPerYear?: number | undefined;
  readonly unitState: UnitState;
  readonly result: 'clear' | 'hit' | 'found' | 'could-not-reach';
}

/** A detector that is at hand, or that a look was made with. */
export interface Detector {
  readonly id: string;
  readonly tag: string;
  /** Whether it can be taken for the next look. */
  readonly atHand: boolean;
  readonly senseGramsPerYear?: number | undefined;
  /** Oldest first. */
  readonly checks: readonly CheckResult[];
}

/** A leak that was found and is not known to be tight again. */
export interface FoundLeak extends LeakSize {
  readonly place: LeakPlaceId;
}

export interface TrailFacts {
  readonly equipment: EquipmentKind;
  /** g/yr; absent where nothing is known of it. */
  readonly goneGramsPerYear?: LossRange | undefined;
  /** The contractor's own, of this kind of unit. */
  readonly findings: Findings;
  readonly signs: readonly { readonly place: LeakPlaceId; readonly sign: SignId }[];
  readonly leaks: readonly FoundLeak[];
  readonly looks: readonly MadeLook[];
  readonly detectors: readonly Detector[];
  readonly unitState: UnitState;
  readonly conditions: Conditions;
}
