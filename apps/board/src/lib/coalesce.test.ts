import { expect, test, vi } from 'vitest';
import { coalesce } from './coalesce.ts';

test('a burst costs two runs, and the second starts after the last request', async () => {
  let changes = 0;
  const seen: number[] = [];
  const refresh = coalesce(async () => {
    const now = changes;
    await Promise.resolve();
    seen.push(now);
  });
  const done: Promise<void>[] = [];
  for (let i = 1; i <= 10; i++) {
    changes = i;
    done.push(refresh());
  }
  await Promise.all(done);
  expect(seen).toEqual([1, 10]);
});

test('a failed run does not block the next', async () => {
  let runs = 0;
  const refresh = coalesce(async () => {
    runs++;
    if (runs === 1) throw new Error('lost');
  });
  await expect(refresh()).rejects.toThrow('lost');
  await refresh();
  expect(runs).toBe(2);
});

test('with a rest, a hundred changes in a second cost a few runs, and the last change is seen', async () => {
  vi.useFakeTimers();
  let changes = 0;
  const seen: number[] = [];
  const refresh = coalesce(async () => void seen.push(changes), 500);
  for (changes = 1; changes <= 100; changes++) {
    void refresh();
    await vi.advanceTimersByTimeAsync(10);
  }
  await vi.advanceTimersByTimeAsync(1_000);
  vi.useRealTimers();
  expect(seen.length).toBeLessThanOrEqual(4);
  expect([seen[0], seen.at(-1)]).toEqual([1, 100]);
});
