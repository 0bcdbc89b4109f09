/** Leak inspections after an exceedance, from the successful follow-up test on. */
import { compare, dayWords, exactGrams } from '@ullage/units';
import type { Day } from '@ullage/units';
import type { OpenedEpisode } from '../episodes.ts';
import { fullChargeOn } from '../full-charge.ts';
import { isKind } from '../placed.ts';
import type { Placed } from '../placed.ts';
import type { Case, DayRate } from '../rate.ts';
import type { Duty } from '../types.ts';
import { dueBy } from './clock.ts';
import { makeDuty } from './make.ts';

interface Series {
  readonly everyMonths: number;
  /** How many periods without an exceedance end the series. */
  readonly periods: number;
  readonly dueOf: (number: number) => Day;
  /** An inspection after this day counts for a period. */
  readonly after: (number: number) => Day;
  /** After this day without an exceedance, periods that have not ended are not asked for any more. */
  readonly quietOn?: Day;
  readonly why: string;
}

function seriesOf(of: Case, episode: OpenedEpisode, test: Placed): Series {
  const { calendar } = of.site;
  const { edition } = episode.openedBy;
  const charge = fullChargeOn(of.fullCharges, test.day)?.grams;
  const large = charge && compare(charge, exactGrams({ value: edition.quarterlyFromLb, unit: 'lb' })) >= 0;
  const months = large && edition.quarterlyUses.includes(of.input.use) ? 3 : 12;
  const stepped = (number: number): Day => calendar.addMonths(test.day, months * number);
  const after = (number: number): Day => (number === 1 ? test.day : stepped(number - 1));
  if (months === 3)
    return {
      everyMonths: 3,
      periods: edition.quartersWithoutExceedance,
      dueOf: stepped,
      after,
      why: `Full charge ${edition.quarterlyFromLb} lb or more: an inspection every 3 months after the test of ${dayWords(test.day)}, until 4 quarters in a row show no exceedance.`,
    };
  if (edition.yearlyInspection === 'from-test')
    return {
      everyMonths: 12,
      periods: 1,
      dueOf: stepped,
      after,
      why: `An inspection within a year of the follow-up test of ${dayWords(test.day)}.`,
    };
  const yearOf = (number: number): number => Number(test.day.slice(0, 4)) + number - 1;
  return {
    everyMonths: 12,
    periods: 2,
    dueOf: (number) => `${yearOf(number)}-12-31`,
    after: (number) => `${yearOf(number) - 1}-12-31`,
    quietOn: calendar.addYears(test.day, 1),
    why: 'One inspection in each calendar year, until the rate has not been over for a year.',
  };
}

/** Inspections that count for a series: those after the test; by calendar year those since the exceedance. */
function inspectionsFor(of: Case, episode: OpenedEpisode, test: Placed): readonly Placed[] {
  const byYear = episode.openedBy.edition.yearlyInspection === 'calendar-year';
  const from = byYear ? episode.reachesBackTo : test.at;
  return of.events.filter(isKind('inspection')).filter((placed) => placed.at >= from);
}

export interface PeriodicQuestion {
  readonly of: Case;
  readonly episode: OpenedEpisode;
  readonly rates: readonly DayRate[];
  /** A later episode's own series replaces this one from that day on. */
  readonly replacedOn: Day | undefined;
  readonly until: Day | undefined;
}

const exceededAfter = ({ rates }: PeriodicQuestion, test: Placed): readonly Day[] =>
  rates.filter((rate) => rate.over && rate.of.at > test.at).map((rate) => rate.of.day);

/** Periods up to the next one to come, or up to `until`; an exceedance starts the count again. */
function numbersOf(question: PeriodicQuestion, series: Series, test: Placed): readonly number[] {
  const { of, replacedOn, until } = question;
  const exceeded = exceededAfter(question, test);
  const numbers: number[] = [];
  let quiet = 0;
  for (let number = 1; quiet < series.periods; number++) {
    const due = series.dueOf(number);
    if (replacedOn !== undefined && due >= replacedOn) break;
    const previous = numbers.at(-1);
    if (previous !== undefined) {
      const previousDue = series.dueOf(previous);
      if (until === undefined ? previousDue >= of.asOfDay : due > until) break;
    }
    quiet = exceeded.some((day) => day > series.after(number) && day <= due) ? 0 : quiet + 1;
    numbers.push(number);
  }
  return numbers;
}

export function periodicDuties(question: PeriodicQuestion): readonly Duty[] {
  const { of, episode } = question;
  const test = episode.verifiedBy;
  if (!test) return [];
  const { edition } = episode.openedBy;
  const series = seriesOf(of, episode, test);
  const { quietOn } = series;
  const exceeded = exceededAfter(question, test).length > 0;
  const isQuiet = quietOn !== undefined && of.asOfDay > quietOn && !exceeded;
  const unused = [...inspectionsFor(of, episode, test)];
  return numbersOf(question, series, test).map((number) => {
    const at = unused.findIndex((placed) => placed.day > series.after(number) || (number === 1 && placed.at > test.at));
    const found = at < 0 ? undefined : unused[at];
    if (found) unused.splice(0, at + 1);
    return makeDuty(of, {
      kind: 'periodic-inspection',
      episode: episode.id,
      number,
      edition,
      clause: edition.clauses.periodic,
      sinceAt: test.at,
      due: dueBy(of, test.day, series.dueOf(number)),
      everyMonths: series.everyMonths,
      evidence: found && [found],
      withdrawn: isQuiet && series.dueOf(number) > quietOn ? 'The rate has not been over for a year.' : undefined,
      why: series.why,
    });
  });
}
