/** Inspection, repair, first test, request for time: the duties of the first 30 (or 120) days of an episode. */
import { dayWords } from '@ullage/units';
import { eventDay } from '../episodes.ts';
import type { OpenedEpisode } from '../episodes.ts';
import type { Leak } from '../leaks.ts';
import { inOrder, isKind } from '../placed.ts';
import type { Placed } from '../placed.ts';
import { percentBeside, percentText } from '../percent.ts';
import type { Case } from '../rate.ts';
import type { Duty } from '../types.ts';
import { dueIn } from './clock.ts';
import { makeDuty } from './make.ts';
import type { RepairClock, Track } from './repair-clock.ts';

const unique = (placed: readonly Placed[]): readonly Placed[] => [...new Set(placed)].sort(inOrder);

const leaksOf = (episode: OpenedEpisode, track: Track): readonly Leak[] =>
  track.leakIds.flatMap((id) => episode.leaks.get(id) ?? []);

/** The evidence of every leak, or undefined while one lacks it or none is known. */
function evidenceOf(leaks: readonly Leak[], of: (leak: Leak) => Placed | undefined): readonly Placed[] | undefined {
  const found = leaks.map(of).filter((placed) => placed !== undefined);
  return leaks.length > 0 && found.length === leaks.length ? unique(found) : undefined;
}

/** Repaired and tested inside the period, and no later test has failed: then no plan is due. */
export function heldInTime(episode: OpenedEpisode, track: Track): boolean {
  const initial = evidenceOf(leaksOf(episode, track), (leak) => leak.initialBy);
  return initial !== undefined && initial.every((placed) => placed.day <= track.due.on);
}

const cause = (episode: OpenedEpisode): string => {
  const { of, rate, threshold } = episode.openedBy;
  return `The addition of ${dayWords(of.day)} showed ${percentBeside(rate, threshold)} % a year, over ${percentText(threshold)} %`;
};

function trackDuties(
  of: Case,
  episode: OpenedEpisode,
  { days, track }: { days: number; track: Track },
): readonly Duty[] {
  const { edition } = episode.openedBy;
  const { leakIds, due, provisional, number } = track;
  const leaks = leaksOf(episode, track);
  const takenOver = episode.plan && 'A retrofit or retirement plan has taken its place.';
  const failed = leaks.some((leak) => leak.failures.length > 0);
  const shared = {
    episode: episode.id,
    number,
    edition,
    leakIds,
    due,
    provisional,
    sinceAt: episode.openedBy.of.at,
    withdrawn: takenOver,
  };
  const failedFlag = failed ? ['verification-failed'] : [];
  const repair = makeDuty(of, {
    ...shared,
    kind: 'repair',
    clause: edition.clauses.repair,
    evidence: evidenceOf(leaks, (leak) => leak.repairedBy),
    why: `${cause(episode)}: repair the leaks within ${days} days.${failed ? ' A test failed, so the repair is open again with its first date.' : ''}`,
    flags: [...track.flags, ...failedFlag],
  });
  const untested = leaks.some((leak) => leak.chargedUntested && !leak.initialBy);
  const initial = makeDuty(of, {
    ...shared,
    kind: 'initial-verification',
    clause: edition.clauses.verification,
    evidence: evidenceOf(leaks, (leak) => leak.initialBy),
    why: `Each repair is tested within the same ${days} days, before any refrigerant is added.`,
    flags: [...track.flags, ...failedFlag, ...(untested ? ['refrigerant-added-before-test'] : [])],
  });
  return [repair, initial];
}

function inspectionDuty(of: Case, episode: OpenedEpisode): Duty {
  const { edition } = episode.openedBy;
  const first = episode.events.find((placed) => placed.event.kind === 'inspection');
  return makeDuty(of, {
    kind: 'inspection',
    episode: episode.id,
    number: 1,
    edition,
    clause: edition.clauses.inspection,
    sinceAt: episode.openedBy.of.at,
    due: dueIn(of, eventDay(episode), edition.inspectionDays),
    evidence: first && [first],
    withdrawn: episode.plan && 'A retrofit or retirement plan has taken its place.',
    why: `${cause(episode)}: a certified technician inspects all visible and accessible parts to locate the leaks.`,
  });
}

function extensionDuty(of: Case, episode: OpenedEpisode, clock: RepairClock): readonly Duty[] {
  if (!clock.asksForTime) return [];
  const { edition } = episode.openedBy;
  const request = episode.events.find(isKind('extension'));
  const duty = makeDuty(of, {
    kind: 'extension-request',
    episode: episode.id,
    number: 1,
    edition,
    clause: edition.clauses.extension,
    sinceAt: episode.openedBy.of.at,
    due: clock.original,
    evidence: request && [request],
    doneOn: request?.event.requestedOn,
    withdrawn: episode.verifiedBy || episode.plan ? 'The repair needs no more time.' : undefined,
    why: `A part comes after the ${clock.days} days: the request for more time goes out within them.`,
  });
  return [duty];
}

export const repairDuties = (of: Case, episode: OpenedEpisode, clock: RepairClock): readonly Duty[] => [
  inspectionDuty(of, episode),
  ...clock.tracks.flatMap((track) => trackDuties(of, episode, { days: clock.days, track })),
  ...extensionDuty(of, episode, clock),
];
