/** Where to look next, as a phone works it out at every look, against the bare index rule over the same looks as plain arrays. */
import { setImmediate as turn } from 'node:timers/promises';
import { LEAK_PLACES, whereToLook } from '@ullage/trail';
import type { MadeLook, TrailFacts } from '@ullage/trail';
import { contest } from './rounds.ts';
import type { Result } from './rounds.ts';

const PLACES = LEAK_PLACES.slice(0, 30).map(({ id }) => id);
const LOOKS: readonly MadeLook[] = PLACES.slice(0, 10).map((place, i) => ({
  at: `2026-03-20T09:${10 + i}:00.000Z`,
  earlierVisit: i < 5,
  places: [place],
  method: 'electronic',
  instrumentId: 'd14',
  unitState: 'off',
  result: 'clear',
}));
const FACTS: TrailFacts = {
  equipment: 'rack',
  goneGramsPerYear: { low: 3000, high: 9000 },
  findings: { 'flare-nut': 12, 'case-header': 30 },
  signs: [{ place: 'flare-nut', sign: 'repaired-before' }],
  leaks: [],
  looks: LOOKS,
  detectors: [{ id: 'd14', tag: 'D-14', atHand: true, senseGramsPerYear: 5, checks: [] }],
  unitState: 'off',
  conditions: { inside: 'refrigerant' },
};
const METHODS = 4;
const STEPS = 3;

/** Priors, chances and minutes are there already; three times the best of places by methods. */
function bareRule(): number {
  const left = Float64Array.from(PLACES, () => 1 / PLACES.length);
  let found = 0;
  for (let step = 0; step < STEPS; step += 1) {
    let [best, at] = [0, 0];
    for (let i = 0; i < left.length; i += 1)
      for (let method = 0; method < METHODS; method += 1) {
        const rate = ((left[i] ?? 0) * (0.9 - method / 10)) / (5 + method + i / 10);
        if (rate > best) [best, at] = [rate, i];
      }
    found += (left[at] ?? 0) * 0.9;
    left[at] = (left[at] ?? 0) * 0.1;
  }
  return found;
}

const BATCH = 10;
/** Bytes that one answer allocates: the median over batches short enough that few are cut by a collection. */
function allocated(): number {
  const bytes = Array.from({ length: 101 }, () => {
    const before = process.memoryUsage().heapUsed;
    for (let i = 0; i < BATCH; i += 1) whereToLook(FACTS);
    return (process.memoryUsage().heapUsed - before) / BATCH;
  });
  return bytes.filter((one) => one > 0).toSorted((a, b) => a - b)[50] ?? NaN;
}

export async function planning(): Promise<Result> {
  for (let i = 0; i < 500; i += 1) whereToLook(FACTS);
  await turn();
  const kb = Math.round(allocated() / 1024);
  return contest({
    name: 'Where to look next, on one thread',
    aim: 0.01,
    lanes: 1,
    roundMs: 200,
    ours: () => Promise.resolve(whereToLook(FACTS)),
    bare: () => Promise.resolve(bareRule()),
    limits: `it builds evidence, looks and sentences anew at each answer, and allocates ${kb} kB for one.`,
  });
}
