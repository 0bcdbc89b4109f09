/** What is known of each leak point: found, repaired, tested. One small state machine, fed with events in order. */
import type { Repair, Verification } from './events.ts';
import { isKind } from './placed.ts';
import type { Placed } from './placed.ts';

export const isTest = isKind('initial-verification', 'follow-up-verification');
export const isPlan = isKind('plan');
export const isRepair = isKind('repair');

export interface Leak {
  readonly id: string;
  readonly foundBy: Placed | undefined;
  /** The latest repair that no failed test has undone. */
  readonly repairedBy: Placed | undefined;
  readonly evacuated: boolean;
  /** Refrigerant went in after the repair and before a test: what follows is no initial test any more. */
  readonly chargedUntested: boolean;
  readonly initialBy: Placed<Verification> | undefined;
  readonly followUpBy: Placed<Verification> | undefined;
  readonly failures: readonly Placed<Verification>[];
}

export type Leaks = ReadonlyMap<string, Leak>;

export const newLeak = (id: string, foundBy?: Placed): Leak => ({
  id,
  foundBy,
  repairedBy: undefined,
  evacuated: false,
  chargedUntested: false,
  initialBy: undefined,
  followUpBy: undefined,
  failures: [],
});

function tested(leak: Leak, placed: Placed<Verification>): Leak {
  if (placed.event.result === 'fail') {
    if (!leak.repairedBy) return leak;
    return { ...newLeak(leak.id, leak.foundBy), failures: [...leak.failures, placed] };
  }
  if (placed.event.kind === 'follow-up-verification') return leak.initialBy ? { ...leak, followUpBy: placed } : leak;
  return leak.repairedBy && !leak.chargedUntested && !leak.initialBy ? { ...leak, initialBy: placed } : leak;
}

function charged(leak: Leak): Leak {
  return leak.repairedBy && !leak.initialBy ? { ...leak, chargedUntested: true } : leak;
}

function found(leaks: Leaks, ids: readonly string[], placed: Placed): Leaks {
  const next = new Map(leaks);
  for (const id of ids) if (!next.has(id) || next.get(id)?.followUpBy) next.set(id, newLeak(id, placed));
  return next;
}

const each = (leaks: Leaks, change: (leak: Leak) => Leak, ids?: readonly string[]): Leaks =>
  new Map([...leaks].map(([id, leak]) => [id, ids && !ids.includes(id) ? leak : change(leak)]));

/** The leaks a test speaks of: those it names, or all. */
export const testedIds = (leaks: Leaks, { leakIds }: Verification): readonly string[] =>
  leakIds.length > 0 ? leakIds : [...leaks.keys()];

function repaired(leaks: Leaks, placed: Placed<Repair>): Leaks {
  const { leakId, evacuated } = placed.event;
  const before = leaks.get(leakId) ?? newLeak(leakId, placed);
  const again = { ...newLeak(leakId, before.foundBy), failures: before.failures };
  return new Map(leaks).set(leakId, { ...again, repairedBy: placed, evacuated });
}

/** The leaks after one more event. Only finding, repairing, testing and charging change what is known of a leak. */
export function afterEvent(leaks: Leaks, placed: Placed): Leaks {
  const { event } = placed;
  if (event.kind === 'leak-found') return found(leaks, [event.leakId], placed);
  if (event.kind === 'inspection') return found(leaks, event.leakIds ?? [], placed);
  if (isRepair(placed)) return repaired(leaks, placed);
  if (event.kind === 'addition') return each(leaks, charged);
  if (isTest(placed)) return each(leaks, (leak) => tested(leak, placed), testedIds(leaks, placed.event));
  return leaks;
}

export const isAllVerified = (leaks: Leaks): boolean =>
  leaks.size > 0 && [...leaks.values()].every((leak) => leak.followUpBy !== undefined);

/** The follow-up tests after which no identified leak was left unproven. */
export function allVerifiedTests(events: readonly Placed[]): readonly Placed[] {
  const tests: Placed[] = [];
  let leaks: Leaks = new Map();
  for (const placed of events) {
    leaks = afterEvent(leaks, placed);
    const { event } = placed;
    if (event.kind !== 'follow-up-verification' || event.result !== 'pass') continue;
    if (leaks.size === 0 || isAllVerified(leaks)) tests.push(placed);
  }
  return tests;
}
