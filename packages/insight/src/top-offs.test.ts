import { inUnit, rational } from '@ullage/units';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { additionsOf, topOffs } from './index.ts';
import type { CircuitHistory, GasMove, Repair, Verification } from './index.ts';

const g = (grams: number) => rational(BigInt(grams));
const lb = (pounds: number) => rational(BigInt(pounds) * 45_359_237n, 100_000n);
const move = (over: Partial<GasMove> & { factId: string }): GasMove => ({
  visitId: 'visit',
  day: '2026-04-30',
  direction: 'in',
  grams: g(5_000),
  purpose: 'service',
  ...over,
});
const repair = (over: Partial<Repair> = {}): Repair => ({
  factId: 'repair',
  visitId: 'visit',
  at: '2026-04-30T17:30:00.000Z',
  leakIds: ['leak'],
  ...over,
});
const verification = (over: Partial<Verification> = {}): Verification => ({
  factId: 'test',
  visitId: 'visit',
  at: '2026-04-30T18:00:00.000Z',
  leakIds: ['leak'],
  passed: true,
  ...over,
});
const history = (over: Partial<CircuitHistory> = {}): CircuitHistory => ({
  moves: [move({ factId: 'charge' })],
  repairs: [],
  verifications: [],
  ...over,
});
const judge = (over: Partial<CircuitHistory>) => topOffs(history(over)).at(-1);

describe('an addition is the net gas of one visit', () => {
  test('12,000 g recovered and 12,000 g put back leave the 18 lb that were added, exactly', () => {
    const additions = additionsOf([
      move({ factId: '1-recovery', direction: 'out', grams: g(12_000) }),
      move({ factId: '2-back', grams: g(12_000) }),
      move({ factId: '3-more', grams: lb(18) }),
    ]);
    expect(additions).toHaveLength(1);
    expect(inUnit(additions[0]!.netGrams!, 'lb')).toEqual(rational(18n));
    expect(additions[0]!.factIds).toEqual(['1-recovery', '2-back', '3-more']);
  });

  test('as much back as came out, or less, is none', () => {
    const out = move({ factId: 'a', direction: 'out', grams: g(900) });
    expect(additionsOf([out, move({ factId: 'b', grams: g(900) })])).toEqual([]);
    expect(additionsOf([out, move({ factId: 'b', grams: g(899) })])).toEqual([]);
    expect(additionsOf([out])).toEqual([]);
  });

  test('a weight nobody knows makes the net unknown, never zero', () => {
    expect(additionsOf([move({ factId: 'a', grams: null })])[0]?.netGrams).toBeNull();
    const out = move({ factId: 'a', direction: 'out', grams: null });
    expect(additionsOf([out, move({ factId: 'b', grams: g(3) })])[0]?.netGrams).toBeNull();
  });

  test('the old gas of a retrofit is not set against a charge in service, and additions without a visit stand alone', () => {
    const additions = additionsOf([
      move({ factId: 'a', direction: 'out', grams: g(9_000), purpose: 'retrofit' }),
      move({ factId: 'b', grams: g(400) }),
      move({ factId: 'c', visitId: null, day: '2025-01-02', grams: g(1) }),
      move({ factId: 'd', visitId: null, day: '2025-01-02', grams: g(2) }),
    ]);
    expect(additions.map(({ day, netGrams }) => [day, netGrams?.n])).toEqual([
      ['2025-01-02', 1n],
      ['2025-01-02', 2n],
      ['2026-04-30', 400n],
    ]);
  });

  test('no gram is lost or made, in whatever order the facts come', () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            visitId: fc.constantFrom('v1', 'v2', null),
            day: fc.constantFrom('2026-01-01', '2026-01-02'),
            direction: fc.constantFrom('in' as const, 'in' as const, 'out' as const),
            grams: fc.integer({ min: 0, max: 500 }),
          }),
          { maxLength: 8 },
        ),
        fc.infiniteStream(fc.nat()),
        (drawn, shuffle) => {
          const moves = drawn.map((row, index) => move({ ...row, factId: `f${index}`, grams: g(row.grams) }));
          const shuffled = moves.map((row) => ({ row, key: shuffle.next().value as number }));
          shuffled.sort((a, b) => a.key - b.key);
          const additions = additionsOf(moves);
          expect(additionsOf(shuffled.map(({ row }) => row))).toEqual(additions);
          for (const { factIds, netGrams } of additions) {
            const own = drawn.flatMap((row, index) => (factIds.includes(`f${index}`) ? [row] : []));
            const net = own.reduce((sum, row) => sum + (row.direction === 'in' ? row.grams : -row.grams), 0);
            expect(netGrams).toEqual(g(net));
            expect(net).toBeGreaterThan(0);
          }
        },
      ),
    ));
});

describe('a top-off is an addition at a visit without a repair that was verified there', () => {
  test.each([
    ['nothing repaired', {}, true, 'no-repair', []],
    ['repaired and passed', { repairs: [repair()], verifications: [verification()] }, false, 'verified-there', 2],
    ['repaired, no test', { repairs: [repair()] }, true, 'not-tested', 1],
    ['test failed', { repairs: [repair()], verifications: [verification({ passed: false })] }, true, 'failed-there', 2],
    ['told of', { moves: [move({ factId: 'past', visitId: null })] }, true, 'told-of-afterwards', []],
  ] as const)('%s', (_what, given, topOff, code, evidence) => {
    const judged = judge(given);
    expect(judged).toMatchObject({ topOff, reason: { code } });
    expect(judged?.reason.text.startsWith(topOff ? 'Top-off: ' : 'Not a top-off: ')).toBe(true);
    expect(judged?.reason.factIds).toEqual(evidence === 2 ? ['repair', 'test'] : evidence === 1 ? ['repair'] : []);
  });

  test.each(['first-charge', 'retrofit', 'seasonal'] as const)('%s is none, repaired or not', (purpose) =>
    expect(judge({ moves: [move({ factId: 'charge', purpose })], repairs: [repair()] })).toMatchObject({
      topOff: false,
      reason: { code: purpose },
    }),
  );

  test('the last test at the visit decides: passed then failed is failed, failed then passed is verified', () => {
    const [early, late] = ['2026-04-30T18:00:00.000Z', '2026-04-30T19:00:00.000Z'];
    const both = (first: boolean) => [
      verification({ factId: 'late', at: late, passed: !first }),
      verification({ factId: 'early', at: early, passed: first }),
    ];
    expect(judge({ repairs: [repair()], verifications: both(true) })?.reason.code).toBe('failed-there');
    expect(judge({ repairs: [repair()], verifications: both(false) })?.reason.code).toBe('verified-there');
  });

  test('a test before the repair, of another leak, or of a repair made again proves nothing', () => {
    const before = verification({ at: '2026-04-30T17:00:00.000Z' });
    expect(judge({ repairs: [repair()], verifications: [before] })?.reason.code).toBe('not-tested');
    const other = verification({ leakIds: ['another'] });
    expect(judge({ repairs: [repair()], verifications: [other] })?.reason.code).toBe('not-tested');
    const again = repair({ factId: 'again', visitId: 'later', at: '2026-06-01T09:00:00.000Z' });
    const proof = verification({ visitId: 'later', at: '2026-06-01T10:00:00.000Z' });
    expect(judge({ repairs: [repair(), again], verifications: [proof] })?.reason.code).toBe('not-tested');
  });

  test('a repair proven only by its follow-up leaves a top-off, and says which test proved it', () => {
    const followUp = verification({ factId: 'follow-up', visitId: 'return', at: '2026-05-06T19:00:00.000Z' });
    expect(judge({ repairs: [repair()], verifications: [followUp] })).toMatchObject({
      topOff: true,
      reason: { code: 'verified-later', factIds: ['repair', 'follow-up'] },
    });
  });

  test('a follow-up that fails takes nothing back: the repair was verified at the visit', () => {
    const followUp = verification({ factId: 'f', visitId: 'return', at: '2026-05-06T19:00:00.000Z', passed: false });
    expect(judge({ repairs: [repair()], verifications: [verification(), followUp] })?.topOff).toBe(false);
  });

  test('of several repairs one that was verified is enough', () =>
    expect(
      judge({
        repairs: [repair({ leakIds: ['leak', 'other'] }), repair({ factId: 'second', leakIds: ['third'] })],
        verifications: [verification({ passed: false }), verification({ factId: 'good', leakIds: ['third'] })],
      }),
    ).toMatchObject({ topOff: false, reason: { factIds: ['second', 'good'] } }));

  test('a repair at another visit is of no help to this one', () =>
    expect(
      judge({ repairs: [repair({ visitId: 'elsewhere' })], verifications: [verification({ visitId: 'elsewhere' })] }),
    ).toMatchObject({ topOff: true, reason: { code: 'no-repair' } }));

  test('what later visits bring never changes whether an earlier addition counts', () =>
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.boolean(),
        fc.array(fc.record({ passed: fc.boolean(), repaired: fc.boolean(), hour: fc.integer({ min: 10, max: 23 }) })),
        (tested, passed, later) => {
          const repairs = [repair()];
          const verifications = tested ? [verification({ passed })] : [];
          const first = judge({ repairs, verifications })?.topOff;
          const at = (hour: number) => `2026-06-01T${hour}:00:00.000Z`;
          const more = later.map((row, index) => ({ factId: `m${index}`, visitId: 'later', at: at(row.hour), ...row }));
          const then = judge({
            repairs: [...repairs, ...more.filter((row) => row.repaired).map((row) => repair(row))],
            verifications: [...verifications, ...more.filter((row) => !row.repaired).map((row) => verification(row))],
          });
          expect(then?.topOff).toBe(first);
        },
      ),
    ));
});
