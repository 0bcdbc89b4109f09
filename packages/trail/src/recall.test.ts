import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distrustOf, isDistrusted, isInDoubt, touchedByDetector } from './index.ts';
import type { DetectorUse, InstrumentCheck } from './index.ts';

const day = (n: number): string => `2026-03-${String(n).padStart(2, '0')}T12:00:00.000Z`;
const check = (n: number, result: InstrumentCheck['result']): InstrumentCheck => ({ id: `c${n}`, at: day(n), result });

describe('when an instrument cannot be trusted', () => {
  const checks = [check(2, 'pass'), check(5, 'fail'), check(7, 'fail'), check(9, 'adjusted'), check(20, 'fail')];

  test('from its last good check until the next good one; failures in a row are one', () => {
    const span = { failedId: 'c5', failedAt: day(5), since: day(2), until: day(9) };
    expect(distrustOf(checks, 'c5')).toEqual(span);
    expect(distrustOf(checks, 'c7')).toEqual(span);
    expect(distrustOf(checks.toReversed(), 'c20')).toEqual({
      failedId: 'c20',
      failedAt: day(20),
      since: day(9),
      until: null,
    });
  });

  test('one that was never good is doubted from the beginning; a good check opens nothing', () => {
    expect(distrustOf([check(5, 'fail')], 'c5')).toMatchObject({ since: null, until: null });
    expect(distrustOf(checks, 'c2')).toBeUndefined();
    expect(distrustOf(checks, 'c99')).toBeUndefined();
  });

  test('what was done at the instant of a good check counts as done after it', () => {
    expect([1, 2, 4, 5, 8, 9].map((n) => isInDoubt(checks, day(n)))).toEqual([false, true, true, true, true, true]);
    expect([1, 2, 4].map((n) => isInDoubt([check(2, 'pass'), check(5, 'pass')], day(n)))).toEqual([
      false,
      false,
      false,
    ]);
  });

  test('in doubt is what lies in the span of some failed check, tried one by one', () => {
    const some = fc
      .uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 6 })
      .chain((days) =>
        fc.tuple(
          ...days.map((n) => fc.constantFrom('pass', 'adjusted', 'fail').map((result) => check(n, result as 'pass'))),
        ),
      );
    fc.assert(
      fc.property(some, fc.integer({ min: 1, max: 12 }), (all, n) => {
        const spans = all.flatMap(({ id }) => distrustOf(all, id) ?? []);
        expect(isInDoubt(all, day(n))).toBe(spans.some((span) => isDistrusted(span, day(n))));
      }),
      { numRuns: 500 },
    );
  });
});

describe('what a failed detector touched', () => {
  const span = { since: day(2), until: day(9) };
  let count = 0;
  const use = (n: number, but: Partial<DetectorUse> = {}): DetectorUse => ({
    factId: `u${(count += 1)}`,
    kind: 'look',
    at: day(n),
    visitId: 'v1',
    instrumentId: 'D',
    isClear: true,
    byDetector: true,
    ...but,
  });

  test('clear looks and passed tests made with it in the span; hits stand, and so does what others saw', () => {
    const [early, clear, hit, other, test1, late] = [
      use(1),
      use(3),
      use(3, { isClear: false }),
      use(3, { instrumentId: 'E' }),
      use(4, { kind: 'test' }),
      use(9),
    ];
    expect(touchedByDetector('D', span, [late, test1, other, hit, clear, early])).toEqual([
      { factId: clear.factId, by: 'named' },
      { factId: test1.factId, by: 'named' },
    ]);
  });

  test('a test that names no detector is touched where this one was in hand, and only if a detector was used', () => {
    const inHand = use(3, { kind: 'check', visitId: 'v2', isClear: false });
    const likely = use(3, { kind: 'test', visitId: 'v2', instrumentId: null });
    const bySoap = use(3, { kind: 'test', visitId: 'v2', instrumentId: null, byDetector: false });
    const elsewhere = use(3, { kind: 'test', visitId: 'v3', instrumentId: null });
    const look = use(3, { visitId: 'v2', instrumentId: null });
    expect(touchedByDetector('D', span, [inHand, likely, bySoap, elsewhere, look])).toEqual([
      { factId: likely.factId, by: 'same-visit' },
    ]);
  });
});
