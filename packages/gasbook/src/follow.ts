import type { Outcome } from './account-replay.ts';
import { replayCircuit } from './circuit.ts';
import type { CircuitTimeline } from './circuit.ts';
import { replayCylinder } from './cylinder.ts';
import type { CylinderTimeline, World } from './cylinder.ts';
import type { Carried } from './doubt.ts';
import type { Flow } from './flow.ts';
import { samePosting } from './movement.ts';
import type { Posting } from './movement.ts';

export type Timeline =
  ({ readonly of: 'cylinder' } & CylinderTimeline) | ({ readonly of: 'circuit' } & CircuitTimeline);

export interface Followed {
  /** What follows for each account that was gone through. */
  readonly outcomes: ReadonlyMap<string, Outcome>;
  /** Accounts that are reached and whose timeline was not given: ask again with them, until there are none. */
  readonly missing: readonly string[];
}

const replayOf = (timeline: Timeline, world: World): Outcome =>
  timeline.of === 'cylinder' ? replayCylinder(timeline, world) : replayCircuit(timeline, world);

const sameAll = <T>(a: readonly T[], b: readonly T[], same: (a: T, b: T) => boolean): boolean =>
  a.length === b.length && a.every((one) => b.some((other) => same(one, other)));
const sameCarried = (a: Carried, b: Carried): boolean =>
  a.cause === b.cause &&
  a.originFactId === b.originFactId &&
  a.lowGrams === b.lowGrams &&
  a.highGrams === b.highGrams &&
  a.originHighGrams === b.originHighGrams &&
  a.spreadFrom === b.spreadFrom;
const sameFlow = (a: Flow, b: Flow): boolean =>
  a.to === b.to &&
  sameAll<Posting>(a.postings, b.postings, samePosting) &&
  sameAll<Carried>(a.doubts, b.doubts, sameCarried);

/**
 * Works out what follows from the timelines of the changed accounts, and of every account that their gas went to, since
 * what a withdrawal is made of depends on what was inside. `world.flows` is what the books hold now. A change goes only
 * as far as it makes a difference: where the same gas with the same doubts goes out as before, it ends. As each act
 * depends on earlier ones alone, the result is the same whatever is gone through first.
 */
export function follow({
  timelines,
  changed,
  beyond,
  world,
}: {
  readonly timelines: ReadonlyMap<string, Timeline>;
  readonly changed: Iterable<string>;
  /** Outside accounts: gas that went there is not followed. */
  readonly beyond: ReadonlySet<string>;
  readonly world: World;
}): Followed {
  const flows = new Map(world.flows);
  const outcomes = new Map<string, Outcome>();
  const missing = new Set<string>();
  const waiting = new Set(changed);
  for (const account of waiting) {
    waiting.delete(account);
    const timeline = timelines.get(account);
    if (!timeline) {
      missing.add(account);
      continue;
    }
    const outcome = replayOf(timeline, { outside: world.outside, flows });
    outcomes.set(account, outcome);
    for (const [factId, flow] of drawnFrom(account, { outcome, flows })) {
      const before = flows.get(factId);
      if (before && sameFlow(before, flow)) continue;
      flows.set(factId, flow);
      if (!beyond.has(flow.to)) waiting.add(flow.to);
    }
  }
  return { outcomes, missing: [...missing].sort() };
}

/** Every fact that drew from the account, now or by the books so far; one that no longer does gives nothing. */
function drawnFrom(
  account: string,
  { outcome, flows }: { outcome: Outcome; flows: ReadonlyMap<string, Flow> },
): [string, Flow][] {
  const ended = [...flows].filter(([factId, flow]) => flow.from === account && !outcome.drawn.has(factId));
  return [
    ...outcome.drawn,
    ...ended.map(([factId, flow]): [string, Flow] => [factId, { ...flow, postings: [], doubts: [] }]),
  ];
}
