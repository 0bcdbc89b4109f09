/** The leak rate of a circuit under one rulebook: every calculation with its arithmetic. */
import { compare, dayWords, fractionText, inUnit, multiply, toDecimal, toNumber } from '@ullage/units';
import type { Calendar, MassUnit, Rational } from '@ullage/units';
import { editionFor } from './editions.ts';
import { episodesOf } from './episodes.ts';
import type { OpenedEpisode } from './episodes.ts';
import { fullChargeOn, massIn } from './full-charge.ts';
import { headroomOf } from './headroom.ts';
import { HUNDRED, percentBeside, percentText } from './percent.ts';
import { dayRates, openCase, scopeOnDay } from './rate.ts';
import type { Case, DayRate } from './rate.ts';
import type { AlternativeRate, Calculation, LeakRateAnswer, LeakRateInput, Reason } from './types.ts';

const massText = (grams: Rational, unit: MassUnit): string => `${toDecimal(inUnit(grams, unit), 3)} ${unit}`;

function arithmetic(rate: DayRate, grams: Rational, result: Rational): string {
  const { fullCharge, interval } = rate;
  const base = `${massText(grams, fullCharge.unit)} \u00f7 ${massText(fullCharge.grams, fullCharge.unit)}`;
  const factor =
    interval.factor.n === interval.factor.d
      ? ''
      : ` \u00d7 ${rate.edition.longestIntervalDays} \u00f7 ${interval.days} days`;
  return `${base}${factor} = ${percentBeside(result, rate.threshold)} % a year`;
}

function verdict(rate: DayRate, over: boolean): string {
  return `${over ? 'over' : 'not over'} ${percentText(rate.threshold)} %`;
}

function intervalReason(of: Case, rate: DayRate): Reason {
  const { interval, edition } = rate;
  const source = edition.clauses.leakRate;
  if (of.input.method === 'rolling')
    return { text: `Rolling: all additions of the last ${interval.days} days, not annualized.`, source };
  if (interval.flags.includes('first-calculation'))
    return {
      text: `First calculation under this rule: ${interval.days} days stand in for the days since the last addition.`,
      source,
    };
  if (interval.substituted) return { text: `No earlier addition is known: ${interval.days} days are counted.`, source };
  const capped = interval.days === edition.longestIntervalDays ? ' (never more than 365)' : '';
  return { text: `${interval.days} days since refrigerant was last added${capped}.`, source };
}

function reasonsOf(of: Case, rate: DayRate): readonly Reason[] {
  const { clauses } = rate.edition;
  const own = {
    text: `${arithmetic(rate, rate.leak, rate.rate)}, ${verdict(rate, rate.over)}.`,
    source: `${clauses.leakRate}; ${clauses.threshold}`,
  };
  const steps = [own, intervalReason(of, rate)];
  if (!rate.flags.includes('not-settled')) return steps;
  const gross: Reason = {
    text: `By gross weight: ${arithmetic(rate, rate.grossLeak, rate.grossRate)}, ${verdict(rate, rate.grossOver)}. Whether gas taken out and put back counts as added is not settled in law; the net is counted here.`,
    source: `${clauses.leakRate} (reading)`,
  };
  if (!rate.flags.includes('readings-differ')) return [...steps, gross];
  return [{ text: 'The two readings of the rule give different verdicts.', source: gross.source }, gross, ...steps];
}

function alternativeOf(rate: DayRate): AlternativeRate | undefined {
  if (compare(rate.leak, rate.grossLeak) === 0) return undefined;
  return {
    leakMass: massIn(rate.grossLeak, rate.fullCharge.unit),
    exact: fractionText(rate.grossRate),
    ratePercentPerYear: toNumber(multiply(rate.grossRate, HUNDRED)),
    over: rate.grossOver,
    reading: 'gross-weight',
  };
}

function calculation(of: Case, rate: DayRate, episodes: readonly OpenedEpisode[]): Calculation {
  const alternative = alternativeOf(rate);
  return {
    at: rate.of.at,
    day: rate.of.day,
    visits: rate.of.visits,
    additionIds: rate.of.additionIds,
    leakMass: massIn(rate.leak, rate.fullCharge.unit),
    exact: fractionText(rate.rate),
    days: rate.interval.days,
    substituted: rate.interval.substituted,
    ratePercentPerYear: toNumber(multiply(rate.rate, HUNDRED)),
    thresholdPercent: toNumber(multiply(rate.threshold, HUNDRED)),
    fullCharge: rate.fullCharge.entered,
    over: rate.over,
    ...(alternative && { alternative }),
    episode: episodes.find((episode) => episode.rates.includes(rate))?.id ?? null,
    clause: rate.edition.clauses.leakRate,
    flags: rate.flags,
    reasons: reasonsOf(of, rate),
  };
}

/** Days of addition that give no rate, said so that nobody looks for it. */
function uncalculated(of: Case, source: string): readonly Reason[] {
  return of.days
    .filter((day) => !day.counts)
    .map((day) => ({
      text: `${dayWords(day.day)}: no rate from this addition (mass unknown, or installation, retrofit or seasonal); it counts as a day on which refrigerant was added.`,
      source,
    }));
}

/**
 * The leak rate after each day of addition up to `asOf`, with what may still be added that day. Verdicts compare exact
 * fractions of masses as entered; equal to the threshold is not over (40 CFR 82.157(c), 84.106(c)).
 * @throws RangeError for a mass, instant or zone that is none: check at the edge first
 */
export function leakRate(input: LeakRateInput, calendar: Calendar): LeakRateAnswer {
  const of = openCase(input, { calendar, timeZone: input.timeZone });
  const edition = editionFor(input.rulebook, of.asOfDay);
  const scope = scopeOnDay(of, of.asOfDay);
  const rates = dayRates(of);
  const episodes = episodesOf(of, rates);
  const calculations = rates.map((rate) => calculation(of, rate, episodes));
  const caveats = [scope.inScope ? edition.useCaveats[input.use] : undefined, ...edition.caveats];
  return {
    rulebook: input.rulebook,
    rulebookVersion: edition.version,
    inScope: scope.inScope,
    thresholdPercent: scope.inScope ? Number(edition.thresholdPercent[input.use]) : null,
    fullCharge: fullChargeOn(of.fullCharges, of.asOfDay)?.entered ?? null,
    calculations,
    headroomMass: headroomOf(of).mass,
    flags: scope.flags,
    reasons: [
      ...(calculations.at(-1)?.reasons ?? []),
      { text: scope.why, source: scope.source },
      ...uncalculated(of, edition.clauses.leakRate),
      ...caveats.flatMap((caveat) => (caveat ? [{ text: caveat.text, source: caveat.source }] : [])),
    ],
  };
}
