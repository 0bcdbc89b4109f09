/** All duties of a circuit under the rulebooks asked about. */
import { dayWords } from '@ullage/units';
import type { Calendar } from '@ullage/units';
import { editionFor } from '../editions.ts';
import { endOf, episodesOf } from '../episodes.ts';
import type { OpenedEpisode } from '../episodes.ts';
import { dayRates, openCase, scopeOnDay } from '../rate.ts';
import type { Case, DayRate } from '../rate.ts';
import type { DutiesAnswer, DutiesInput, Duty, Episode, Reason, RulebookId } from '../types.ts';
import { chronicDuties } from './chronic.ts';
import { followUpDuties } from './follow-up.ts';
import { periodicDuties } from './periodic.ts';
import { planDuties } from './plan.ts';
import { repairClock } from './repair-clock.ts';
import { repairDuties } from './repair.ts';

function episodeDuties(of: Case, episode: OpenedEpisode): readonly Duty[] {
  const clock = repairClock(of, episode);
  return [...repairDuties(of, episode, clock), ...followUpDuties(of, episode), ...planDuties(of, episode, clock)];
}

interface Judged {
  readonly of: Case;
  readonly rates: readonly DayRate[];
  readonly episodes: readonly OpenedEpisode[];
}

function periodic({ of, rates, episodes }: Judged, until: DutiesInput['until']): readonly Duty[] {
  return episodes.flatMap((episode, index) => {
    const replacedOn = episodes.slice(index + 1).find((later) => later.verifiedBy)?.verifiedBy?.day;
    return periodicDuties({ of, episode, rates, replacedOn, until });
  });
}

function shown(rulebook: RulebookId, episode: OpenedEpisode): Episode {
  const end = endOf(episode);
  const plan = episode.plan;
  return {
    id: episode.id,
    rulebook,
    openedAt: episode.openedBy.of.at,
    reachesBackTo: episode.reachesBackTo,
    closedAt: plan?.at ?? end?.at ?? null,
    closedBy: plan ? 'plan' : episode.verifiedBy ? 'verification' : null,
    leakIds: [...episode.leaks.keys()].sort(),
  };
}

interface Found {
  readonly duties: readonly Duty[];
  readonly episodes: readonly Episode[];
  readonly reasons: readonly Reason[];
}

/** Said before anything else: duties follow the net reading, and by gross weight there would be more of them. */
const differing = (rates: readonly DayRate[]): readonly Reason[] =>
  rates
    .filter((rate) => rate.flags.includes('readings-differ'))
    .map(({ of, edition }) => ({
      text: `The addition of ${dayWords(of.day)} is not over by net weight and over by gross weight: not settled in law, and no duty is listed for it.`,
      source: `${edition.clauses.leakRate} (reading)`,
    }));

function underRulebook(input: DutiesInput, rulebook: RulebookId, calendar: Calendar): Found {
  const { circuit, method, timeZone, asOf, events } = input;
  const of = openCase({ ...circuit, rulebook, method, timeZone, asOf, events }, { calendar, timeZone });
  const rates = dayRates(of);
  const episodes = episodesOf(of, rates);
  const scope = scopeOnDay(of, of.asOfDay);
  return {
    duties: [
      ...episodes.flatMap((episode) => episodeDuties(of, episode)),
      ...periodic({ of, rates, episodes }, input.until),
      ...chronicDuties(of, rates),
    ],
    episodes: episodes.map((episode) => shown(rulebook, episode)),
    reasons: [...differing(rates), { text: scope.why, source: scope.source }],
  };
}

/**
 * What the rulebooks demand of the circuit's owner or operator, until when, and what has discharged it, with the facts
 * known at `asOf`. The order of the events given makes no difference. A duty that was missed is not a state: compare
 * `dueAt` with now. Local codes and licensed practice rule beside it.
 * @throws RangeError for a mass, instant or zone that is none: check at the edge first
 */
export function duties(input: DutiesInput, calendar: Calendar): DutiesAnswer {
  const found = input.rulebooks.map((rulebook) => underRulebook(input, rulebook, calendar));
  const asOfDay = calendar.dayOf(calendar.instant(input.asOf), input.timeZone);
  return {
    duties: found.flatMap((own) => own.duties),
    episodes: found.flatMap((own) => own.episodes),
    rulebookVersions: Object.fromEntries(
      input.rulebooks.map((rulebook) => [rulebook, editionFor(rulebook, asOfDay).version]),
    ),
    reasons: found.flatMap((own) => own.reasons),
  };
}
