/**
 * The leak rate of each day of addition, exact (40 CFR 82.152 and 84.102 "Leak rate"):
 * annualizing = added / full charge x 365 / days; rolling = sum added in the window / full charge.
 */
import { add, compare, divide, multiply, parseDecimal, rational, sum, ZERO } from '@ullage/units';
import type { Day, Instant, Rational } from '@ullage/units';
import { additionDays, visitFlows } from './additions.ts';
import type { AdditionDay, VisitFlow } from './additions.ts';
import type { Edition } from './edition.ts';
import { editionOn } from './editions.ts';
import { fullChargeHistory, fullChargeOn } from './full-charge.ts';
import type { FullChargeOn } from './full-charge.ts';
import { allVerifiedTests } from './leaks.ts';
import { isKind, placeEvents } from './placed.ts';
import type { Placed, Site } from './placed.ts';
import { scopeOf } from './scope.ts';
import type { Scope } from './scope.ts';
import type { FullCharge, LeakRateInput } from './types.ts';

/** One circuit before one rulebook, with everything that is looked up once. */
export interface Case {
  readonly input: LeakRateInput;
  readonly site: Site;
  readonly asOfDay: Day;
  readonly events: readonly Placed[];
  readonly flows: readonly VisitFlow[];
  readonly days: readonly AdditionDay[];
  readonly fullCharges: readonly FullCharge[];
}

/** An exact rate with the inputs it was made of. */
export interface DayRate {
  readonly of: AdditionDay;
  readonly edition: Edition;
  readonly fullCharge: FullChargeOn;
  readonly leak: Rational;
  readonly grossLeak: Rational;
  readonly interval: Interval;
  readonly rate: Rational;
  readonly grossRate: Rational;
  readonly threshold: Rational;
  readonly over: boolean;
  readonly grossOver: boolean;
  readonly flags: readonly string[];
}

/** What the rate of a day is counted over. */
export interface Interval {
  readonly days: number;
  readonly substituted: boolean;
  /** Rate = mass / full charge x factor. */
  readonly factor: Rational;
  /** The earlier days whose additions are part of the sum. */
  readonly earlier: readonly AdditionDay[];
  readonly flags: readonly string[];
}

export function openCase(input: LeakRateInput, site: Site): Case {
  const events = placeEvents(input.events, site, input.asOf);
  const flows = visitFlows(events, site.calendar);
  return {
    input,
    site,
    asOfDay: site.calendar.dayOf(site.calendar.instant(input.asOf), site.timeZone),
    events,
    flows,
    days: additionDays(flows),
    fullCharges: fullChargeHistory(input.fullCharges, events),
  };
}

export function scopeOnDay(of: Case, day: Day): Scope {
  const { rulebook, refrigerant, use, equipment, subsector } = of.input;
  const fullCharge = fullChargeOn(of.fullCharges, day)?.grams;
  return scopeOf({ rulebook, refrigerant, use, equipment, subsector, day, fullCharge });
}

/** Percent text as an exact share. */
export const share = (percent: string): Rational => divide(parseDecimal(percent) ?? ZERO, rational(100n));

/** The days before `day` that gave a rate under this rulebook. */
function ratedBefore(of: Case, days: readonly AdditionDay[], day: Day): readonly AdditionDay[] {
  return days.filter(
    (own) => own.day < day && own.counts && editionOn(of.input.rulebook, own.day) && scopeOnDay(of, own.day).inScope,
  );
}

/** The days of the same leak, oldest first: several additions for one leak are summed from the first of them on. */
function chainOf(of: AdditionDay | undefined, rated: readonly AdditionDay[]): readonly AdditionDay[] {
  if (!of) return [];
  const links = rated.filter((day) => day.additionIds.some((id) => of.sameLeakAs.includes(id)));
  const chain = new Set(
    links.flatMap((day) => [
      ...chainOf(
        day,
        rated.filter((own) => own.day < day.day),
      ),
      day,
    ]),
  );
  return [...chain].sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** The last day before `day` on which refrigerant went in, the installation included. */
function lastAdditionBefore(of: Case, days: readonly AdditionDay[], day: Day): Day | undefined {
  const installed = [
    of.input.installedOn,
    ...of.events.filter(isKind('installation', 'retrofit')).map((placed) => placed.day),
  ];
  const before = [...days.map((own) => own.day), ...installed].filter((own) => own !== undefined && own < day);
  return before.reduce((latest, own) => ((latest ?? '') > (own ?? '') ? latest : own), undefined);
}

export interface IntervalQuestion {
  readonly of: Case;
  readonly edition: Edition;
  readonly day: Day;
  /** A follow-up test after this instant does not shorten the window. */
  readonly at: Instant;
  /** The days of addition to count with; the headroom leaves out the visit in progress. */
  readonly days: readonly AdditionDay[];
}

function annualizing({ of, edition, day, days }: IntervalQuestion): Interval {
  const rated = ratedBefore(of, days, day);
  const chain = chainOf(
    days.find((own) => own.day === day),
    rated,
  );
  const longest = edition.longestIntervalDays;
  const chainFlags = chain.length > 0 ? ['several-additions-for-one-leak'] : [];
  const isFirst = rated.length === chain.length;
  if (isFirst && edition.firstCalculationDays !== null)
    return {
      days: edition.firstCalculationDays,
      substituted: true,
      factor: rational(longest, edition.firstCalculationDays),
      earlier: chain,
      flags: ['first-calculation', ...chainFlags],
    };
  const since = lastAdditionBefore(of, days, chain[0]?.day ?? day);
  const passed = since === undefined ? longest : of.site.calendar.daysBetween(since, day);
  const counted = Math.min(passed, longest);
  return {
    days: counted,
    substituted: since === undefined,
    factor: rational(longest, counted),
    earlier: chain,
    flags: [...(since === undefined ? ['no-earlier-addition-known'] : []), ...chainFlags],
  };
}

/** 365 days, or since the last follow-up test that showed all identified leaks repaired: never annualized. */
function rolling({ of, edition, day, at, days }: IntervalQuestion): Interval {
  const { calendar } = of.site;
  const longest = edition.longestIntervalDays;
  const test = allVerifiedTests(of.events).findLast((placed) => placed.at <= at);
  const first = calendar.addDays(day, -longest);
  const from = [first, edition.countsAdditionsFrom ?? first].reduce((a, b) => (a > b ? a : b));
  const isCounted = (own: AdditionDay): boolean => own.day >= from && own.day < day && (!test || own.at > test.at);
  const inWindow = days.filter(isCounted);
  const start = test && test.day > from ? test.day : from;
  return {
    days: calendar.daysBetween(start, day),
    substituted: false,
    factor: rational(1n),
    earlier: inWindow.filter((own) => own.counts),
    flags: inWindow.some((own) => own.flags.includes('mass-partly-unknown')) ? ['mass-partly-unknown'] : [],
  };
}

export const intervalFor = (question: IntervalQuestion): Interval =>
  question.of.input.method === 'annualizing' ? annualizing(question) : rolling(question);

const rateOf = (leak: Rational, fullCharge: Rational, factor: Rational): Rational =>
  multiply(divide(leak, fullCharge), factor);

/** Gas purged and destroyed may be left out (40 CFR 82.157(k)); here it is counted, which is the stricter side. */
function purgedFlags(of: Case, own: AdditionDay, interval: Interval): readonly string[] {
  const from = of.site.calendar.addDays(own.day, -interval.days);
  const purged = of.events.filter(isKind('purged')).some(({ day, at }) => day >= from && at <= own.at);
  return purged ? ['purged-gas-is-counted'] : [];
}

function dayRate(of: Case, own: AdditionDay): DayRate | undefined {
  const edition = editionOn(of.input.rulebook, own.day);
  const fullCharge = fullChargeOn(of.fullCharges, own.day);
  if (!own.counts || !edition || !fullCharge || !scopeOnDay(of, own.day).inScope) return undefined;
  const interval = intervalFor({ of, edition, day: own.day, at: own.at, days: of.days });
  const leak = add(own.net, sum(interval.earlier.map((day) => day.net)));
  const grossLeak = add(own.gross, sum(interval.earlier.map((day) => day.gross)));
  const threshold = share(edition.thresholdPercent[of.input.use]);
  const rate = rateOf(leak, fullCharge.grams, interval.factor);
  const grossRate = rateOf(grossLeak, fullCharge.grams, interval.factor);
  const over = compare(rate, threshold) > 0;
  const grossOver = compare(grossRate, threshold) > 0;
  const differs =
    compare(leak, grossLeak) === 0 ? [] : ['not-settled', ...(over === grossOver ? [] : ['readings-differ'])];
  const flags = [...new Set([...differs, ...interval.flags, ...own.flags, ...purgedFlags(of, own, interval)])];
  return {
    of: own,
    edition,
    fullCharge,
    leak,
    grossLeak,
    interval,
    rate,
    grossRate,
    threshold,
    over,
    grossOver,
    flags,
  };
}

/** One rate for each day of addition under the rulebook, oldest first. */
export const dayRates = (of: Case): readonly DayRate[] =>
  of.days.flatMap((own) => {
    const rate = dayRate(of, own);
    return rate ? [rate] : [];
  });
