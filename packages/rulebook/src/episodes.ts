/**
 * Leak episodes: opened by the first addition over the threshold, reaching back over that visit and an earlier linked
 * repair, closed by verification or plan. Later additions for the same leak attach and move no date.
 */
import type { Day, Instant } from '@ullage/units';
import { afterEvent, isAllVerified, isPlan, isRepair, isTest, newLeak, testedIds } from './leaks.ts';
import type { Leak, Leaks } from './leaks.ts';
import type { Plan, Repair, Verification } from './events.ts';
import { isKind } from './placed.ts';
import type { Placed } from './placed.ts';
import type { Case, DayRate } from './rate.ts';

/** Leaks that passed their initial test on one day, and what became of their follow-up. */
export interface FollowUpBatch {
  readonly number: number;
  readonly leakIds: readonly string[];
  readonly initialBy: Placed<Verification>;
  readonly evacuated: boolean;
  readonly passedBy: readonly Placed<Verification>[];
  readonly failedBy: Placed<Verification> | undefined;
  /** Its leaks were worked on once more before the follow-up: the new repair has its own tests. */
  readonly repairedAgainBy: Placed | undefined;
}

export interface OpenedEpisode {
  readonly id: string;
  readonly openedBy: DayRate;
  readonly reachesBackTo: Instant;
  /** Events from there to the end of the episode. */
  readonly events: readonly Placed[];
  readonly leaks: Leaks;
  readonly batches: readonly FollowUpBatch[];
  readonly verifiedBy: Placed | undefined;
  readonly plan: Placed<Plan> | undefined;
  readonly rates: readonly DayRate[];
}

type Walk = Pick<OpenedEpisode, 'leaks' | 'batches' | 'verifiedBy' | 'plan'> & { readonly seen: readonly Placed[] };

/** Leaks that were found or repaired before an instant and not proven tight by then. */
function openLeaksAt(events: readonly Placed[], at: Instant): readonly string[] {
  let leaks: Leaks = new Map();
  for (const placed of events) if (placed.at < at) leaks = afterEvent(leaks, placed);
  return [...leaks.values()].filter((leak) => !leak.followUpBy).map((leak) => leak.id);
}

/** The start of the opening visit, or of a repair since the addition before it whose leak was still unproven. */
function reachBack(of: Case, opener: DayRate, notBefore: Instant): Instant {
  const { calendar, timeZone } = of.site;
  const visits = new Set(opener.of.visits);
  const atVisit = of.events.filter((placed) => placed.event.visit !== undefined && visits.has(placed.event.visit));
  const dayStart = calendar.startOf(opener.of.day, timeZone);
  const visitStart = atVisit[0] && atVisit[0].at < dayStart ? atVisit[0].at : dayStart;
  const previous = of.days.findLast((day) => day.day < opener.of.day)?.at ?? '';
  const open = openLeaksAt(of.events, visitStart);
  const linked = of.events
    .filter(isKind('repair'))
    .find((placed) => placed.at > previous && placed.at < visitStart && open.includes(placed.event.leakId));
  const start = linked ? linked.at : visitStart;
  return start < notBefore ? notBefore : start;
}

const isPending = (batch: FollowUpBatch): boolean => !batch.failedBy && !batch.repairedAgainBy;

function afterInitial(walk: Walk, leaks: Leaks, placed: Placed<Verification>): readonly FollowUpBatch[] {
  const { batches } = walk;
  const isFresh = (leak: Leak): boolean => leak.initialBy === placed && !walk.leaks.get(leak.id)?.initialBy;
  const fresh = [...leaks.values()].filter(isFresh);
  if (fresh.length === 0) return batches;
  const evacuated = fresh.some((leak) => leak.evacuated);
  const leakIds = fresh.map((leak) => leak.id);
  const last = batches.at(-1);
  if (last && isPending(last) && last.passedBy.length === 0 && last.initialBy.day === placed.day) {
    const joined = { ...last, leakIds: [...last.leakIds, ...leakIds], initialBy: placed };
    return [...batches.slice(0, -1), { ...joined, evacuated: last.evacuated || evacuated }];
  }
  const next = {
    number: batches.length + 1,
    leakIds,
    initialBy: placed,
    evacuated,
    passedBy: [],
    failedBy: undefined,
    repairedAgainBy: undefined,
  };
  return [...batches, next];
}

/** A test that failed takes its leaks out of their batch; a batch left empty has failed. */
function afterFollowUp(batches: readonly FollowUpBatch[], leaks: Leaks, placed: Placed<Verification>) {
  const ids = testedIds(leaks, placed.event);
  return batches.map((batch): FollowUpBatch => {
    const named = batch.leakIds.some((id) => ids.includes(id));
    if (!named || !isPending(batch)) return batch;
    if (placed.event.result === 'pass') return { ...batch, passedBy: [...batch.passedBy, placed] };
    const rest = batch.leakIds.filter((id) => !ids.includes(id));
    return rest.length === 0 ? { ...batch, failedBy: placed } : { ...batch, leakIds: rest };
  });
}

function afterRepair({ batches, leaks }: Walk, placed: Placed<Repair>): readonly FollowUpBatch[] {
  const { leakId } = placed.event;
  if (leaks.get(leakId)?.followUpBy) return batches;
  return batches.map((batch) => {
    if (!isPending(batch) || !batch.leakIds.includes(leakId)) return batch;
    const rest = batch.leakIds.filter((id) => id !== leakId);
    return rest.length === 0 ? { ...batch, repairedAgainBy: placed } : { ...batch, leakIds: rest };
  });
}

function step(walk: Walk, placed: Placed): Walk {
  const leaks = afterEvent(walk.leaks, placed);
  const next = { ...walk, leaks, seen: [...walk.seen, placed] };
  if (isPlan(placed)) return { ...next, plan: placed };
  if (isRepair(placed)) return { ...next, batches: afterRepair(walk, placed) };
  if (!isTest(placed)) return next;
  const { kind, result } = placed.event;
  const started = kind === 'initial-verification' ? afterInitial(walk, leaks, placed) : walk.batches;
  const judges = kind === 'follow-up-verification' || result === 'fail';
  const batches = judges ? afterFollowUp(started, leaks, placed) : started;
  const verified = kind === 'follow-up-verification' && isAllVerified(leaks);
  return { ...next, batches, verifiedBy: verified ? placed : undefined };
}

/** Ends when every identified leak is proven tight, or the circuit is retired or, under a plan, retrofitted. */
const isOver = ({ verifiedBy, plan }: Walk, placed: Placed): boolean =>
  verifiedBy !== undefined ||
  placed.event.kind === 'retired' ||
  (plan !== undefined && placed.event.kind === 'retrofit');

function openEpisode(of: Case, opener: DayRate, notBefore: Instant): OpenedEpisode {
  const from = reachBack(of, opener, notBefore);
  const carried = openLeaksAt(of.events, from).map((id) => [id, newLeak(id)] as const);
  let walk: Walk = { leaks: new Map(carried), batches: [], verifiedBy: undefined, plan: undefined, seen: [] };
  for (const placed of of.events) {
    if (placed.at < from) continue;
    walk = step(walk, placed);
    if (placed.at >= opener.of.at && isOver(walk, placed)) break;
  }
  const id = opener.of.visits[0] ?? opener.of.day;
  const { seen, ...rest } = walk;
  return { id, openedBy: opener, reachesBackTo: from, events: seen, rates: [opener], ...rest };
}

export const endOf = (episode: OpenedEpisode): Placed | undefined => {
  const last = episode.events.at(-1);
  return last && isOver({ ...episode, seen: [] }, last) ? last : undefined;
};

/** The episodes of a circuit under one rulebook, oldest first. */
export function episodesOf(of: Case, rates: readonly DayRate[]): readonly OpenedEpisode[] {
  const episodes: OpenedEpisode[] = [];
  for (const rate of rates) {
    const last = episodes.at(-1);
    const end = last && endOf(last);
    if (last && (!end || rate.of.at <= end.at))
      episodes[episodes.length - 1] = { ...last, rates: [...last.rates, rate] };
    else if (rate.over) episodes.push(openEpisode(of, rate, end?.at ?? ''));
  }
  return episodes;
}

/** The day on which the addition over the threshold was made: day 0 of the clocks. */
export const eventDay = (episode: OpenedEpisode): Day => episode.openedBy.of.day;
