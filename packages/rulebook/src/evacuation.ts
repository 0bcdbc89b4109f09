/** To what level an appliance, or its isolated part, is evacuated before it is opened (40 CFR 82.156). */
import { compare, exactGrams, KPA_PER_INHG, KPA_PER_PSI } from '@ullage/units';
import type { Day, EnteredMass } from '@ullage/units';
import { EDITIONS } from './editions.ts';
import type { PressureClass } from './pressure-class.ts';
import { findRefrigerant } from './refrigerants.ts';
import type { Refrigerant } from './refrigerants.ts';
import type { Answer, Reason } from './types.ts';
import { EVACUATION } from './us-ods/evacuation.ts';
import type { Level } from './us-ods/evacuation.ts';

export const REMOVED_PARTS = ['compressor', 'condenser', 'evaporator', 'auxiliary-coil', 'other'] as const;
export type RemovedPart = (typeof REMOVED_PARTS)[number];

export interface Work {
  readonly removes?: RemovedPart | readonly RemovedPart[];
  /** Flow area of the uncovered opening. */
  readonly openingSquareInches?: number;
  readonly openMinutes?: number;
  /** Only hoses or gauges are put on or taken off. */
  readonly hosesOnly?: boolean;
  readonly oilChange?: boolean;
}

export interface EvacuationInput {
  readonly refrigerant: string;
  readonly fullCharge: EnteredMass;
  /** Day on which the recovery machine was made. */
  readonly machineMadeOn: Day;
  /** Of the site, absolute. */
  readonly barometerKpa: number;
  /** A vacuum is pulled to the atmosphere after the repair. */
  readonly evacuateAfter: boolean;
  readonly leakingPart: boolean;
  /** The leaking part can be shut off from the sound ones. */
  readonly isolatable?: boolean;
  /** As decided by the technician; otherwise it follows from `work`. */
  readonly major?: boolean;
  readonly work?: Work;
  readonly smallAppliance?: boolean;
  readonly factorySealed?: boolean;
  readonly compressorRuns?: boolean;
  readonly systemDependent?: boolean;
}

export interface EvacuationAnswer extends Answer {
  /** Null where nobody said enough; the stricter level is then given. */
  readonly major: boolean | null;
  readonly pressureClass: PressureClass | null;
  /** Absolute, never to be exceeded when opening. Null where no level is asked or the gas is not known. */
  readonly levelKpa: number | null;
  /** Small appliances: this share of the charge, or instead `levelKpa`. */
  readonly percentOfCharge?: number;
  readonly levelText: string;
  readonly clause: string;
  readonly flags: readonly string[];
}

type Found = Pick<EvacuationAnswer, 'levelKpa' | 'levelText' | 'clause' | 'percentOfCharge'> & {
  readonly flags?: readonly string[];
};

const { clauses } = EVACUATION;
const pounds = (value: string) => exactGrams({ value, unit: 'lb' });
const isNewer = ({ machineMadeOn }: EvacuationInput): boolean => machineMadeOn >= EVACUATION.newerMachineFrom;

/** Major work removes a main part, or leaves more than 4 square inches open for more than 15 minutes. */
function majorOf({ major, work }: EvacuationInput): boolean | null {
  if (major !== undefined) return major;
  if (!work) return null;
  const { openingSquareInches = 0, openMinutes = 0, removes = [] } = work;
  const removed: readonly RemovedPart[] = typeof removes === 'string' ? [removes] : removes;
  const wide = openingSquareInches > EVACUATION.majorOpeningSquareInches;
  const long = openMinutes > EVACUATION.majorOpenMinutes;
  return removed.some((part) => part !== 'other') || (wide && long);
}

function kpaOf(level: Level, barometerKpa: number): number {
  const kpa =
    'mmHgAbsolute' in level
      ? (level.mmHgAbsolute * 101.325) / 760
      : (EVACUATION.referenceInHg - level.inHgVacuum) * KPA_PER_INHG;
  return Math.min(kpa, barometerKpa);
}

const textOf = (level: Level): string =>
  'mmHgAbsolute' in level ? `${level.mmHgAbsolute} mmHg absolute` : `${level.inHgVacuum} inHg vacuum`;

function tableLevel(input: EvacuationInput, gas: Refrigerant): Level {
  const charge = exactGrams(input.fullCharge);
  const rows = EVACUATION.table[gas.pressureClass];
  const row = rows.find(({ fromLb }) => compare(charge, pounds(fromLb)) >= 0) ?? rows[0];
  return isNewer(input) ? row.newerMachine : row.olderMachine;
}

function byTable(input: EvacuationInput, gas: Refrigerant): Found {
  const level = tableLevel(input, gas);
  const shown = textOf(level);
  const levelKpa = kpaOf(level, input.barometerKpa);
  if (!input.leakingPart) return { levelKpa, levelText: shown, clause: clauses.table };
  return {
    levelKpa,
    levelText: `isolate the leaking part; sound parts to ${shown}; the leaking part to the lowest level attainable without substantially contaminating the refrigerant, never above 0 psig`,
    clause: `${clauses.table}; ${clauses.leaking}`,
    flags: ['isolate-leaking-part'],
  };
}

const isSmall = ({ smallAppliance, factorySealed, fullCharge }: EvacuationInput): boolean =>
  Boolean(smallAppliance) &&
  factorySealed !== false &&
  compare(exactGrams(fullCharge), pounds(EVACUATION.smallAppliance.upToLb)) <= 0;

function small(input: EvacuationInput): Found {
  const { runningPercent, otherPercent, inHgVacuum } = EVACUATION.smallAppliance;
  const percentOfCharge = isNewer(input) && input.compressorRuns !== false ? runningPercent : otherPercent;
  return {
    percentOfCharge,
    levelKpa: kpaOf({ inHgVacuum }, input.barometerKpa),
    levelText: `${percentOfCharge} % of the charge, or ${inHgVacuum} inHg vacuum`,
    clause: clauses.smallAppliance,
  };
}

function notMajor(input: EvacuationInput, gas: Refrigerant): Found {
  if (input.work?.oilChange)
    return {
      levelKpa: input.barometerKpa + EVACUATION.oilChangePsig * KPA_PER_PSI,
      levelText: `no higher than ${EVACUATION.oilChangePsig} psig, or drain the oil into a receiver evacuated to that`,
      clause: clauses.oilChange,
    };
  const isLow = gas.pressureClass === 'low';
  return {
    levelKpa: input.barometerKpa,
    levelText: isLow ? 'raised to no higher than 0 psig, openings covered when possible' : 'no higher than 0 psig',
    clause: isLow ? clauses.lowNotMajor : clauses.notMajor,
  };
}

function levelFor(input: EvacuationInput, gas: Refrigerant | undefined, major: boolean | null): Found {
  if (input.work?.hosesOnly)
    return {
      levelKpa: null,
      levelText: 'none: putting hoses and gauges on or off is not an opening',
      clause: clauses.opening,
      flags: ['not-an-opening'],
    };
  if (!gas)
    return {
      levelKpa: null,
      levelText: `${input.refrigerant} is not in the rulebook's table`,
      clause: clauses.table,
      flags: ['refrigerant-unknown'],
    };
  if ((EVACUATION.exemptInAnyUse as readonly string[]).includes(gas.name))
    return {
      levelKpa: null,
      levelText: 'none: the gas is exempt in any use',
      clause: clauses.venting,
      flags: ['exempt'],
    };
  if (isSmall(input)) return small(input);
  if (major === false && !input.evacuateAfter) return notMajor(input, gas);
  if (!input.leakingPart || input.isolatable) return byTable(input, gas);
  return {
    levelKpa: input.barometerKpa,
    levelText: 'the lowest level attainable without substantially contaminating the refrigerant, never above 0 psig',
    clause: clauses.leaking,
    flags: ['lowest-attainable'],
  };
}

function flagsOf(input: EvacuationInput, gas: Refrigerant | undefined): readonly string[] {
  const tooHeavy = compare(exactGrams(input.fullCharge), pounds(EVACUATION.systemDependentUpToLb)) > 0;
  const flags: string[] = [];
  if (input.systemDependent && tooHeavy) flags.push('system-dependent-not-allowed');
  if (input.smallAppliance && !isSmall(input)) flags.push('not-a-small-appliance');
  if (gas?.pressureClassReason.doubtful) flags.push('pressure-class-doubtful');
  if (gas && (EVACUATION.exemptInListedUses as readonly string[]).includes(gas.name))
    flags.push('exempt-in-listed-uses');
  return flags;
}

function reasonsOf(input: EvacuationInput, gas: Refrigerant | undefined, found: Found): readonly Reason[] {
  const reasons: Reason[] = [];
  if (flagsOf(input, gas).includes('system-dependent-not-allowed'))
    reasons.push({
      text: `System-dependent recovery equipment is not used on appliances over ${EVACUATION.systemDependentUpToLb} lb.`,
      source: clauses.systemDependent,
    });
  reasons.push({ text: `Evacuate to: ${found.levelText}. Verify it before opening.`, source: found.clause });
  if (gas) reasons.push({ text: gas.pressureClassReason.reason, source: gas.pressureClassReason.source });
  if (found.levelKpa !== null)
    reasons.push({
      text: `${found.levelKpa.toFixed(1)} kPa absolute at a barometer of ${input.barometerKpa.toFixed(1)} kPa; 0 psig is the barometer of the site.`,
      source: 'reading of 40 CFR 82.156',
    });
  reasons.push({ text: 'Local codes and licensed practice rule beside this.', source: 'common practice' });
  return reasons;
}

/**
 * The level of evacuation before opening or disposal. Where nobody said whether the work is major, the level of major
 * work is given. @throws RangeError for a full charge that is no mass: check at the edge first
 */
export function evacuationLevel(input: EvacuationInput): EvacuationAnswer {
  const gas = findRefrigerant(input.refrigerant);
  const major = majorOf(input);
  const found = levelFor(input, gas, major);
  const edition = EDITIONS['us-ods'].at(-1) ?? EDITIONS['us-ods'][0];
  return {
    rulebook: edition.rulebook,
    rulebookVersion: edition.version,
    ...found,
    major,
    pressureClass: gas?.pressureClass ?? null,
    flags: [...(found.flags ?? []), ...flagsOf(input, gas)],
    reasons: reasonsOf(input, gas, found),
  };
}
