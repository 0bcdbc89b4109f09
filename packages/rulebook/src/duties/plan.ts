/** The retrofit or retirement plan, and its completion. */
import { dayWords } from '@ullage/units';
import type { Day, Instant } from '@ullage/units';
import { eventDay } from '../episodes.ts';
import type { OpenedEpisode } from '../episodes.ts';
import { inOrder, isKind } from '../placed.ts';
import type { Placed } from '../placed.ts';
import type { Case } from '../rate.ts';
import type { Duty } from '../types.ts';
import { dueBy, dueIn } from './clock.ts';
import type { Due } from './clock.ts';
import { makeDuty } from './make.ts';
import { heldInTime } from './repair.ts';
import type { RepairClock } from './repair-clock.ts';

/** The last failed test of the episode. */
const lastFailure = (episode: OpenedEpisode): Placed | undefined =>
  [...episode.leaks.values()]
    .flatMap((leak) => leak.failures)
    .sort(inOrder)
    .at(-1);

interface Need {
  readonly opensAt: Instant;
  readonly due: Due;
  readonly why: string;
}

/** Needed once the repair's date has passed without a repair that held. */
function needOf(of: Case, episode: OpenedEpisode, clock: RepairClock): Need | undefined {
  const missed = clock.tracks.filter(
    (track) => of.asOfDay > track.due.on && !track.due.suspended && !heldInTime(episode, track),
  );
  const last = missed.map((track) => track.due).sort((a, b) => (a.on < b.on ? -1 : 1))[0];
  if (!last) return undefined;
  const failed = lastFailure(episode);
  const { edition } = episode.openedBy;
  const from: Day = failed?.day ?? eventDay(episode);
  return {
    opensAt: failed && failed.at > last.at ? failed.at : last.at,
    due: dueIn(of, from, edition.planDays),
    why: failed
      ? `The test of ${dayWords(failed.day)} failed and the repair's date ${dayWords(last.on)} has passed: a plan is due ${edition.planDays} days after the failed attempt.`
      : `Nothing was proven by ${last.on}: a plan was due ${edition.planDays} days after ${from}.`,
  };
}

function planDuty(of: Case, episode: OpenedEpisode, need: Need | undefined): readonly Duty[] {
  const { plan } = episode;
  if (!need && !plan) return [];
  const { edition, of: opener } = episode.openedBy;
  const chosen = {
    due: dueIn(of, eventDay(episode), edition.planDays),
    why: 'The owner chose a plan instead of a repair.',
  };
  const duty = makeDuty(of, {
    ...(need ?? chosen),
    kind: 'plan',
    episode: episode.id,
    number: 1,
    edition,
    clause: edition.clauses.plan,
    sinceAt: need?.opensAt ?? opener.at,
    evidence: plan && [plan],
    doneOn: plan?.event.on,
    withdrawn: episode.verifiedBy && `The repair was proven on ${dayWords(episode.verifiedBy.day)}.`,
  });
  return [duty];
}

/** Granted, or not answered within the days of silence, when it was asked for in time. */
function reliefOf(of: Case, episode: OpenedEpisode, plan: Day): string | undefined {
  const { edition } = episode.openedBy;
  const { calendar } = of.site;
  const request = of.events.filter(isKind('relief-request')).findLast((placed) => placed.event.on >= plan)?.event;
  if (!request || request.on > calendar.addDays(plan, edition.reliefDays)) return undefined;
  const silentUntil = calendar.addDays(request.on, edition.reliefSilenceDays);
  const granted = request.granted ?? (request.answeredOn === undefined && of.asOfDay > silentUntil);
  return granted ? `Relief asked for on ${request.on} was granted.` : undefined;
}

function completionDuty(of: Case, episode: OpenedEpisode, planDue: Due): readonly Duty[] {
  const { plan } = episode;
  if (!plan) return [];
  const { edition } = episode.openedBy;
  const { calendar } = of.site;
  const year = calendar.addYears(plan.event.on, edition.planYears);
  const cap = calendar.addYears(planDue.on, edition.planYears);
  const done = of.events.find((placed) => isKind('retired', 'retrofit')(placed) && placed.at >= plan.at);
  const duty = makeDuty(of, {
    kind: 'plan-completion',
    episode: episode.id,
    number: 1,
    edition,
    clause: edition.clauses.planCompletion,
    sinceAt: plan.at,
    due: dueBy(of, plan.day, edition.planCappedByDueDate && cap < year ? cap : year),
    evidence: done && [done],
    withdrawn: reliefOf(of, episode, plan.event.on),
    why: `The ${plan.event.planKind} of the plan of ${dayWords(plan.event.on)} is finished within a year.`,
  });
  return [duty];
}

export function planDuties(of: Case, episode: OpenedEpisode, clock: RepairClock): readonly Duty[] {
  const need = needOf(of, episode, clock);
  const planDue = need?.due ?? dueIn(of, eventDay(episode), episode.openedBy.edition.planDays);
  return [...planDuty(of, episode, need), ...completionDuty(of, episode, planDue)];
}
