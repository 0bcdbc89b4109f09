/** Headroom: the inverse of the rate. So much may be added on a day before the circuit is over its threshold. */
import {
  compare,
  divide,
  fractionText,
  inUnit,
  massText,
  multiply,
  subtract,
  sum,
  toDecimal,
  ZERO,
} from '@ullage/units';
import type { Calendar, EnteredMass, MassUnit, Rational } from '@ullage/units';
import { additionDays } from './additions.ts';
import type { VisitFlow } from './additions.ts';
import { editionFor, editionOn } from './editions.ts';
import { fullChargeOn } from './full-charge.ts';
import { intervalFor, openCase, scopeOnDay, share } from './rate.ts';
import type { Case } from './rate.ts';
import type { HeadroomAnswer, HeadroomInput } from './types.ts';

/** Down to 0.01 lb or oz, 1 g: what is shown may be added in full. */
const PLACES: Readonly<Record<MassUnit, number>> = { lb: 2, oz: 2, 'lb-oz': 2, kg: 3, g: 0 };

function roundedDown(grams: Rational, unit: MassUnit): EnteredMass {
  const positive = compare(grams, ZERO) > 0 ? grams : ZERO;
  return {
    value: massText(positive, unit, { places: PLACES[unit], rounding: 'down' }),
    unit: unit === 'lb-oz' ? 'lb' : unit,
  };
}

/** The visit that an addition on the day would belong to. */
function visitInProgress(of: Case, named: string | undefined): string {
  return named ?? of.flows.findLast((flow) => flow.day === of.asOfDay)?.visit ?? of.asOfDay;
}

const signedOf = (flow: VisitFlow | undefined): Rational => flow?.signed ?? ZERO;

export function headroomOf(of: Case, visit?: string): HeadroomAnswer {
  const { asOfDay: day, input } = of;
  const edition = editionOn(input.rulebook, day);
  const scope = scopeOnDay(of, day);
  const fullCharge = fullChargeOn(of.fullCharges, day);
  const version = editionFor(input.rulebook, day).version;
  const outside = {
    rulebook: input.rulebook,
    rulebookVersion: version,
    mass: null,
    exactGrams: null,
    days: null,
    flags: scope.flags,
  };
  if (!edition || !fullCharge || !scope.inScope)
    return { ...outside, reasons: [{ text: scope.why, source: scope.source }] };

  const current = visitInProgress(of, visit);
  const days = additionDays(of.flows.filter((flow) => flow.visit !== current));
  const interval = intervalFor({ of, edition, day, at: of.site.calendar.instant(input.asOf), days });
  const threshold = share(edition.thresholdPercent[input.use]);
  const limit = divide(multiply(threshold, fullCharge.grams), interval.factor);
  const here = signedOf(of.flows.find((flow) => flow.visit === current));
  const today = days.find((own) => own.day === day)?.net ?? ZERO;
  const used = sum([here, today, ...interval.earlier.map((own) => own.net)]);
  const room = subtract(limit, used);
  const mass = roundedDown(room, fullCharge.unit);

  const inFull = (grams: Rational): string => `${toDecimal(inUnit(grams, fullCharge.unit), 3)} ${fullCharge.unit}`;
  const factor =
    interval.factor.n === interval.factor.d
      ? ''
      : ` \u00d7 ${interval.days} \u00f7 ${edition.longestIntervalDays} days`;
  const counted = compare(used, ZERO) === 0 ? '' : ` Counted already: ${inFull(used)}; left ${inFull(room)}.`;
  return {
    ...outside,
    mass,
    exactGrams: fractionText(room),
    days: interval.days,
    flags: [...scope.flags, ...interval.flags, ...(compare(room, ZERO) < 0 ? ['already-over'] : [])],
    reasons: [
      {
        text: `${edition.thresholdPercent[input.use]} % of ${inFull(fullCharge.grams)}${factor} = ${inFull(limit)}.${counted} Rounded down: ${mass.value} ${mass.unit}.`,
        source: `${edition.clauses.leakRate}; ${edition.clauses.threshold}`,
      },
    ],
  };
}

/**
 * What may still be added on the day of `asOf` before the rate is over its threshold. What was added at a visit of the
 * same day counts already; gas recovered at the visit in progress may go back on top.
 * @throws RangeError for a mass, instant or zone that is none
 */
export function headroom(input: HeadroomInput, calendar: Calendar): HeadroomAnswer {
  return headroomOf(openCase(input, { calendar, timeZone: input.timeZone }), input.visit);
}
