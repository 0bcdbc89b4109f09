/**
 * Three devices, two people and the office's model, by seeds. One that fails is run alone by `SYNC_SEED=<seed>`; the night
 * runs more by `SYNC_SEEDS=10000`.
 */
import { describe, expect, test } from 'vitest';
import { groundOf, modelDesk, START_MS } from './model-desk.ts';
import { run } from './run.ts';
import type { Told } from './run.ts';

const alone = process.env['SYNC_SEED'];
const count = Number(process.env['SYNC_SEEDS'] ?? 300);
const seeds = alone === undefined ? Array.from({ length: count }, (_, at) => at + 1) : [Number(alone)];
/** Every hundredth begins with a week without a line. */
const isWeek = (seed: number): boolean => seed % 100 === 0;

async function play(seed: number): Promise<Told> {
  const clock = { now: START_MS };
  const ground = groundOf(seed, 4);
  const desk = modelDesk(ground, clock);
  return run({ seed, ground, desk, clock, steps: 80, ...(isWeek(seed) ? { weekOffline: 2_000 } : {}) });
}

describe('devices and office, by seed', () => {
  test(`no command lost or doubled, all devices equal, books as expected: ${seeds.length} seeds`, async () => {
    const sum = { wishes: 0, refusals: 0, restores: 0, crashes: 0 };
    for (const seed of seeds) {
      const told = await play(seed).catch((fault: unknown) => {
        throw new Error(`SYNC_SEED=${seed}: ${fault instanceof Error ? fault.message : String(fault)}`, {
          cause: fault,
        });
      });
      for (const key of Object.keys(sum) as (keyof Told)[]) sum[key] += told[key];
    }
    // A run in which nothing goes wrong proves nothing.
    if (alone === undefined) for (const what of Object.values(sum)) expect(what).toBeGreaterThan(seeds.length / 2);
  }, 3_600_000);
});
