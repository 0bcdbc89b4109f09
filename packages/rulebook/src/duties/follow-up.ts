/** The follow-up verification test: within 10 days of normal operation, or of the first test where nothing was evacuated. */
import { dayWords } from '@ullage/units';
import type { FollowUpBatch, OpenedEpisode } from '../episodes.ts';
import { isKind, visitOf } from '../placed.ts';
import type { Placed } from '../placed.ts';
import type { Case } from '../rate.ts';
import type { Duty } from '../types.ts';
import { dueIn } from './clock.ts';
import { makeDuty } from './make.ts';
import type { DutyDraft } from './make.ts';

interface Start {
  readonly from: Placed;
  readonly provisional: boolean;
  readonly because: string;
}

/** Until the technician states normal operation, the days count from the end of charging. */
function startOf(episode: OpenedEpisode, batch: FollowUpBatch): Start | undefined {
  const { initialBy } = batch;
  if (!batch.evacuated)
    return { from: initialBy, provisional: false, because: `the first test of ${dayWords(initialBy.day)}` };
  const after = episode.events.slice(episode.events.indexOf(initialBy) + 1);
  const stated = after.find(isKind('normal-operation'));
  if (stated)
    return { from: stated, provisional: false, because: `normal operation was reached on ${dayWords(stated.day)}` };
  const charges = after.filter(isKind('addition'));
  const first = charges[0];
  const end = first && charges.findLast((charge) => visitOf(charge) === visitOf(first));
  if (!end) return undefined;
  return {
    from: end,
    provisional: true,
    because: `charging ended on ${dayWords(end.day)}; normal operation is not stated yet`,
  };
}

/** The passes that prove every leak of the batch, or undefined while one is unproven. */
function proof(episode: OpenedEpisode, batch: FollowUpBatch): readonly Placed[] | undefined {
  if (batch.failedBy || batch.repairedAgainBy || batch.leakIds.some((id) => !episode.leaks.get(id)?.followUpBy))
    return undefined;
  return batch.passedBy;
}

function batchDuty(of: Case, episode: OpenedEpisode, batch: FollowUpBatch): Duty {
  const { edition } = episode.openedBy;
  const start = startOf(episode, batch);
  const passed = proof(episode, batch);
  const draft: DutyDraft = {
    kind: 'follow-up-verification',
    episode: episode.id,
    number: batch.number,
    edition,
    clause: edition.clauses.verification,
    leakIds: [...batch.leakIds].sort(),
    sinceAt: start?.from.at ?? batch.initialBy.at,
    opensAt: start?.from.at,
    due: start && dueIn(of, start.from.day, edition.followUpDays),
    provisional: start?.provisional,
    evidence: passed,
    withdrawn: withdrawnBecause(episode, batch),
    why: start
      ? `The repair is proven again within ${edition.followUpDays} days: ${start.because}.`
      : 'The part was evacuated and is not charged yet; the days begin with normal operation.',
    flags: [
      ...(batch.failedBy ? ['verification-failed'] : []),
      ...(passed && start?.provisional ? ['normal-operation-not-stated'] : []),
    ],
  };
  return makeDuty(of, draft);
}

function withdrawnBecause(episode: OpenedEpisode, batch: FollowUpBatch): string | undefined {
  if (batch.failedBy) return `The test of ${dayWords(batch.failedBy.day)} failed: the repair is open again.`;
  if (batch.repairedAgainBy)
    return `Repaired again on ${dayWords(batch.repairedAgainBy.day)}: that repair has its own test.`;
  return episode.plan && 'A retrofit or retirement plan has taken its place.';
}

/** A follow-up that is still to come, because a leak has not passed its first test. */
function comingDuty(of: Case, episode: OpenedEpisode): readonly Duty[] {
  const untested = [...episode.leaks.values()].filter((leak) => !leak.initialBy).map((leak) => leak.id);
  if (episode.leaks.size > 0 && untested.length === 0) return [];
  const { edition } = episode.openedBy;
  const draft: DutyDraft = {
    kind: 'follow-up-verification',
    episode: episode.id,
    number: episode.batches.length + 1,
    edition,
    clause: edition.clauses.verification,
    leakIds: untested.sort(),
    sinceAt: episode.openedBy.of.at,
    due: undefined,
    evidence: undefined,
    withdrawn: episode.plan && 'A retrofit or retirement plan has taken its place.',
    why: 'The follow-up test has a date once the first test has passed.',
  };
  return [makeDuty(of, draft)];
}

export const followUpDuties = (of: Case, episode: OpenedEpisode): readonly Duty[] => [
  ...episode.batches.map((batch) => batchDuty(of, episode, batch)),
  ...comingDuty(of, episode),
];
