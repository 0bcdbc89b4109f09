/** The shape of one dated edition of a rulebook. All figures are data; the evaluator holds none of its own. */
import type { Day } from '@ullage/units';
import type { Equipment, RulebookId, Use } from './types.ts';

export interface Clauses {
  readonly scope: string;
  readonly leakRate: string;
  readonly threshold: string;
  readonly inspection: string;
  readonly repair: string;
  readonly verification: string;
  readonly extension: string;
  readonly periodic: string;
  readonly plan: string;
  readonly planCompletion: string;
  readonly chronic: string;
  /** The record of each service, items (i) to (viii). */
  readonly record: string;
  readonly mothball: string;
}

/** A statement about an edition that screens show beside its results. */
export interface Caveat {
  readonly flag: string;
  readonly text: string;
  readonly source: string;
}

export interface Edition {
  readonly rulebook: RulebookId;
  readonly version: string;
  readonly effectiveOn: Day;
  readonly covers: 'ods' | 'hfc';
  /** Pounds, decimal text. */
  readonly minimumChargeLb: string;
  /** A substitute without a regulated HFC is caught above this GWP; null where the rulebook knows no such test. */
  readonly gwpOver: string | null;
  readonly excludesResidentialLightCommercial: boolean;
  /** Comfort cooling presumed to be in the excluded subsector until somebody decides otherwise. */
  readonly presumedExcluded: readonly Equipment[];
  readonly contestedEquipment: readonly Equipment[];
  readonly thresholdPercent: Readonly<Record<Use, string>>;
  /** The first calculation by the annualizing method uses this many days; null: the days that passed. */
  readonly firstCalculationDays: number | null;
  /** Additions before this day never enter a rate; null: all do. */
  readonly countsAdditionsFrom: Day | null;
  readonly longestIntervalDays: number;
  readonly inspectionDays: number;
  readonly repairDays: number;
  readonly repairDaysWithShutdown: number;
  readonly followUpDays: number;
  readonly partRepairDays: number;
  readonly partLimitDays: number;
  readonly partLimitDaysWithShutdown: number;
  readonly planDays: number;
  readonly planYears: number;
  /** The plan is finished at the latest a year after it was due, whatever date it bears. */
  readonly planCappedByDueDate: boolean;
  readonly reliefDays: number;
  readonly reliefSilenceDays: number;
  readonly chronicPercent: string;
  readonly quarterlyFromLb: string;
  readonly quarterlyUses: readonly Use[];
  readonly quartersWithoutExceedance: number;
  /** `from-test`: within a year of the follow-up test. `calendar-year`: one in each calendar year. */
  readonly yearlyInspection: 'from-test' | 'calendar-year';
  readonly useCaveats: Readonly<Partial<Record<Use, Caveat>>>;
  readonly caveats: readonly Caveat[];
  readonly clauses: Clauses;
}
