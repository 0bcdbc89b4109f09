import { mixtureLiquidFraction, mixtureLiquidFullK } from '../mixture/liquid-full.ts';
import { alarmOf } from './alarm.ts';
import type { CylinderAlarm } from './alarm.ts';
import { correlationOf } from '../correlations/index.ts';
import { unknownRefrigerant } from '../fault.ts';
import type { ThermoFault } from '../fault.ts';
import type { Reason } from '../reason.ts';
import { liquidFullTemperatureK, liquidVolumeFraction, minServicePressure } from './hot-state.ts';
import type { NamedCorrelation } from './hot-state.ts';
import { fillLimits, innerVolumeM3 } from './limits.ts';
import type { FillLimit, FillRule } from './limits.ts';
import { obstaclesOf } from './obstacles.ts';
import type { Obstacle } from './obstacles.ts';
import { requalification } from './requalification.ts';
import type { LastTest, Requalification, Service } from './requalification.ts';
import { CLAUSE, HOT_CYLINDER_K } from './rules.ts';
import { parseSpecification } from './specification.ts';
import type { Specification } from './specification.ts';

export interface CylinderRoomInput {
  readonly refrigerant: string;
  /** Stamped `WC`: the weight of water it holds. */
  readonly waterCapacityKg: number;
  /** Stamped `TW`, valve included. */
  readonly tareKg: number;
  /** On the scale now; at least the tare. */
  readonly grossKg: number;
  readonly kind?: 'disposable' | 'refillable' | 'recovery';
  readonly servicePressureKpaGauge?: number;
  /** As stamped: `DOT-4BA400`. */
  readonly specification?: string;
  /** By refrigerant; `air` and `nitrogen` may stand in it. */
  readonly contentsKg?: Readonly<Record<string, number>>;
  /** Liquid density at 25 °C, instead of ours. */
  readonly densityKgPerM3?: number;
  readonly lastTest?: LastTest;
  readonly service?: Service;
  readonly coated?: boolean;
  /** True, or which: `dent`, `corrosion`, `leak`, `fire`, …; `over-pressurised` condemns it. */
  readonly damage?: boolean | string;
  /** Days as `2026-03-20`. */
  readonly filledOn?: string;
  readonly todayOn?: string;
  /** Of the cylinder now: for the alarm of an overfilled one. */
  readonly temperatureK?: number;
}

export interface CylinderRoom {
  readonly ok: true;
  /** Masses are rounded down to grams; null where no rule gives a limit. */
  readonly netLimitKg: number | null;
  readonly grossLimitKg: number | null;
  /** Below zero by as much as it is overfilled. */
  readonly roomKg: number | null;
  readonly limitedBy: FillRule | null;
  readonly limits: readonly FillLimit[];
  /** At which today's contents would fill it with liquid; null where they never do, or it is empty. */
  readonly liquidFullTemperatureK: number | null;
  readonly liquidVolumeFractionAt55C: number | null;
  /** Of a cylinder that would be liquid-full before 55 °C. */
  readonly alarm: CylinderAlarm;
  readonly keepBelowK: number | null;
  readonly minServicePressureKpaGauge: number | null;
  /** Of the refrigerants inside, what is not `refrigerant`; null when the contents are not given. Air has its own limit. */
  readonly foreignMassPercent: number | null;
  readonly requalifyByOn: string | null;
  /** Nothing of what was given forbids filling; see `notChecked` for what was not given. */
  readonly mayFill: boolean;
  readonly whyNot: readonly Obstacle[];
  /** Overdue but lawfully filled before: it may stay as it is until emptied. Null where the dates do not say. */
  readonly mayStayUntilEmptied: boolean | null;
  readonly notChecked: readonly string[];
  readonly reasons: readonly Reason[];
}

const CAUTION: Reason = {
  text: 'Fill by weight, weigh again after disconnecting, keep below 52 °C. Local codes and licensed practice rule beside this.',
  source: `${CLAUSE.servicePressure}; common practice`,
};

const NOT_REFRIGERANTS: ReadonlySet<string> = new Set(['air', 'nitrogen']);

/** Down to a gram: room shown is never more than there is. The millionth forgives binary fractions of a whole gram. */
const downToGram = (kg: number): number => Math.floor(kg * 1000 + 1e-6) / 1000;

function foreignPercent({ contentsKg, refrigerant }: CylinderRoomInput): number | undefined {
  const gases = Object.entries(contentsKg ?? {}).filter(([name]) => !NOT_REFRIGERANTS.has(name));
  const total = gases.reduce((sum, [, kg]) => sum + kg, 0);
  if (!(total > 0)) return undefined;
  const foreign = gases.reduce((sum, [name, kg]) => sum + (name === refrigerant ? 0 : kg), 0);
  return (100 * foreign) / total;
}

/** The gas meant and every other that is inside. One unknown gas is a fault, unless its density was handed in. */
function gasesInside(input: CylinderRoomInput): readonly NamedCorrelation[] | ThermoFault {
  const others = Object.entries(input.contentsKg ?? {})
    .filter(([name, kg]) => kg > 0 && name !== input.refrigerant && !NOT_REFRIGERANTS.has(name))
    .map(([name]) => name);
  const inside: NamedCorrelation[] = [];
  for (const refrigerant of [input.refrigerant, ...others]) {
    const correlation = correlationOf(refrigerant);
    if (correlation) inside.push({ refrigerant, correlation });
    else if (refrigerant !== input.refrigerant || input.densityKgPerM3 === undefined)
      return unknownRefrigerant(refrigerant);
  }
  return inside;
}

function servicePressure(input: CylinderRoomInput, specification: Specification | undefined): number | undefined {
  const known = [input.servicePressureKpaGauge, specification?.servicePressureKpaGauge].filter((x) => x !== undefined);
  return known.length === 0 ? undefined : Math.min(...known);
}

function whatWasNotGiven(input: CylinderRoomInput, serviceKpa: number | undefined, due: Requalification): string[] {
  const missing: string[] = [];
  if (serviceKpa === undefined) missing.push('service pressure');
  if (input.kind === undefined && input.specification === undefined) missing.push('kind of cylinder');
  if (input.specification !== undefined && !parseSpecification(input.specification)) missing.push('specification');
  if (!due.known && due.why === 'no-test-given') missing.push('date of the last test');
  if (due.known && input.todayOn === undefined && input.filledOn === undefined) missing.push('day of filling');
  return missing;
}

const staysUntilEmptied = (input: CylinderRoomInput, due: Requalification): boolean | null =>
  due.known && input.filledOn !== undefined ? input.filledOn <= due.byOn : null;

type FillState = Pick<CylinderRoom, 'netLimitKg' | 'grossLimitKg' | 'roomKg' | 'limitedBy' | 'limits'>;

/** The limits, and what the least of them leaves above the scale's reading. */
function fillState(
  input: CylinderRoomInput,
  inside: readonly NamedCorrelation[],
  servicePressureKpaGauge: number | undefined,
): { fill: FillState; fillReasons: readonly Reason[] } {
  const { refrigerant, waterCapacityKg, densityKgPerM3 } = input;
  const correlations = inside.map(({ correlation }) => correlation);
  const { limits, reasons } = fillLimits({
    refrigerant,
    correlations,
    waterCapacityKg,
    servicePressureKpaGauge,
    densityKgPerM3,
  });
  const least = limits.toSorted((a, b) => a.netKg - b.netKg)[0];
  if (!least) {
    const none = { netLimitKg: null, grossLimitKg: null, roomKg: null, limitedBy: null, limits };
    return { fill: none, fillReasons: reasons };
  }
  const netLimitKg = downToGram(least.netKg);
  const grossLimitKg = downToGram(input.tareKg + least.netKg);
  const roomKg = downToGram(input.tareKg + least.netKg - input.grossKg);
  return { fill: { netLimitKg, grossLimitKg, roomKg, limitedBy: least.rule, limits }, fillReasons: reasons };
}

interface HotState {
  readonly fullAtK: number | undefined;
  readonly fractionAt55C: number | undefined;
}

/** Of today's contents: of one gas by its own line, of a mixture of known masses by the mixture's. */
function hotState(input: CylinderRoomInput, inside: readonly NamedCorrelation[]): HotState {
  const [only] = inside;
  const netKg = input.grossKg - input.tareKg;
  const volumeM3 = innerVolumeM3(input.waterCapacityKg);
  if (!only || netKg <= 0) return { fullAtK: undefined, fractionAt55C: undefined };
  if (inside.length > 1) {
    const massesKg = scaledTo(netKg, input.contentsKg ?? {});
    return {
      fullAtK: mixtureLiquidFullK(massesKg, volumeM3),
      fractionAt55C: mixtureLiquidFraction(massesKg, volumeM3, HOT_CYLINDER_K),
    };
  }
  const kgPerM3 = netKg / volumeM3;
  return {
    fullAtK: liquidFullTemperatureK(only.correlation, kgPerM3),
    fractionAt55C: liquidVolumeFraction(only.correlation, kgPerM3, HOT_CYLINDER_K),
  };
}

/** The masses as the books have them, brought to what the scale shows. */
function scaledTo(netKg: number, contentsKg: Readonly<Record<string, number>>): Record<string, number> {
  const total = Object.values(contentsKg).reduce((sum, kg) => sum + kg, 0);
  return Object.fromEntries(Object.entries(contentsKg).map(([name, kg]) => [name, (kg * netKg) / total]));
}

/**
 * How much more may be filled into a US DOT cylinder, and whether it may be filled at all: the least of AHRI Guideline K,
 * the named filling density and "not liquid-full at 55 °C" (49 CFR 173.304a), the service pressure for the gas, and
 * requalification (49 CFR 180.205, 180.209). Every obstacle comes back with its clause. Local codes and the gas
 * supplier's own rules may ask for more.
 */
export function cylinderRoom(input: CylinderRoomInput): CylinderRoom | ThermoFault {
  const inside = gasesInside(input);
  if ('ok' in inside) return inside;
  const specification = input.specification === undefined ? undefined : parseSpecification(input.specification);
  const serviceKpa = servicePressure(input, specification);
  const service = input.service ?? (input.kind === 'recovery' ? 'recovery' : undefined);
  const due = requalification({ specification, lastTest: input.lastTest, service, coated: input.coated });
  const { fill, fillReasons } = fillState(input, inside, serviceKpa);
  const need = minServicePressure(inside);
  const foreign = foreignPercent(input);
  const hot = hotState(input, inside);
  const alarmed = alarmOf(hot.fullAtK, input.temperatureK);
  const whyNot = obstaclesOf({
    refrigerant: input.refrigerant,
    disposable: input.kind === 'disposable',
    specification,
    servicePressureKpaGauge: serviceKpa,
    minServicePressureKpaGauge: need.minKpaGauge,
    roomKg: fill.roomKg ?? undefined,
    foreignMassPercent: foreign,
    requalification: due,
    filledOn: input.filledOn,
    todayOn: input.todayOn,
    damage: input.damage,
  });
  return {
    ok: true,
    ...fill,
    liquidFullTemperatureK: hot.fullAtK ?? null,
    liquidVolumeFractionAt55C: hot.fractionAt55C ?? null,
    alarm: alarmed.alarm,
    keepBelowK: alarmed.keepBelowK,
    minServicePressureKpaGauge: need.minKpaGauge ?? null,
    foreignMassPercent: foreign ?? null,
    requalifyByOn: due.known ? due.byOn : null,
    mayFill: whyNot.length === 0,
    whyNot,
    mayStayUntilEmptied: staysUntilEmptied(input, due),
    notChecked: whatWasNotGiven(input, serviceKpa, due),
    reasons: [...alarmed.reasons, ...fillReasons, need.reason, ...due.reasons, CAUTION],
  };
}
