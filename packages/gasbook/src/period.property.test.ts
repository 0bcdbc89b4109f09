import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balances, periodBooks, standingOf } from './index.ts';
import type { AccountKind, Movement, PeriodFlow } from './index.ts';
import { arrivals, instant, keep, premises } from './testing/arrivals.ts';

describe('the books of a period', () => {
  const kindOf = (account: string): AccountKind =>
    account in premises.cylinders ? 'cylinder' : account in premises.circuits ? 'circuit' : (account as AccountKind);
  const flowsOf = (ledger: readonly Movement[], from: string, until: string): PeriodFlow[] =>
    ledger
      .filter(({ happenedAt }) => happenedAt < until)
      .map((movement) => ({
        ...{ refrigerant: movement.refrigerant, grams: movement.grams, undoes: movement.corrects !== undefined },
        ...{ from: kindOf(movement.from), to: kindOf(movement.to) },
        when: movement.happenedAt < from ? 'before' : 'within',
      }));
  /** What accounts of a kind hold of a gas just before an instant, replayed by itself. */
  const heldAt = (ledger: readonly Movement[], at: string, [kind, gas]: [AccountKind, string]): number =>
    [...balances(ledger.filter(({ happenedAt }) => happenedAt < at)).values()]
      .filter(({ account, holding }) => kindOf(account) === kind && holding.refrigerant === gas)
      .reduce((sum, { grams }) => sum + grams, 0);

  test('emissions are the change of atmosphere and service loss, and differ from the mass balance as said', () => {
    const drawn = fc.record({
      facts: arrivals,
      ends: fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })),
      full: fc.record({ opening: fc.nat(9_000), closing: fc.nat(9_000) }),
    });
    fc.assert(
      fc.property(drawn, ({ facts, ends, full }) => {
        const { ledger } = keep(facts);
        const [from, until] = [instant(Math.min(...ends)), instant(Math.max(...ends))];
        for (const book of periodBooks(flowsOf(ledger, from, until), new Map([['R-22', full]]))) {
          const { refrigerant: gas, emissions, massBalance, difference } = book;
          const rose = (kind: AccountKind): number =>
            heldAt(ledger, until, [kind, gas]) - heldAt(ledger, from, [kind, gas]);
          const fullRose = gas === 'R-22' ? full.closing - full.opening : 0;
          expect(emissions.total).toBe(rose('atmosphere') + rose('service-loss'));
          expect(book.opening.cylinders).toBe(heldAt(ledger, from, ['cylinder', gas]));
          expect(book.closing.circuits).toBe(heldAt(ledger, until, ['circuit', gas]));
          // Stock fell, plus what came, less what went, less the growth of full charges: from balances alone.
          const came = rose('supplier') + rose('opening') + rose('other-party') + rose('reclaimer') + rose('destroyer');
          expect(massBalance.emissions).toBe(0 - rose('cylinder') - came - fullRose);
          const explained = fullRose - rose('circuit') - rose('discrepancy');
          expect(emissions.total - massBalance.emissions).toBe(explained);
          expect(difference.total).toBe(difference.outOfDiscrepancy + difference.furtherBelowFull);
          expect(difference.total).toBe(explained + 0);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('the closing of one is the opening of the next, and charged less recovered is what standing movements say', () => {
    fc.assert(
      fc.property(arrivals, fc.integer({ min: 1, max: 4 }), (facts, cut) => {
        const { ledger } = keep(facts);
        const none = new Map();
        const first = periodBooks(flowsOf(ledger, instant(0), instant(cut)), none);
        const second = new Map(
          periodBooks(flowsOf(ledger, instant(cut), instant(8)), none).map((book) => [book.refrigerant, book]),
        );
        for (const { refrigerant, closing } of first) expect(second.get(refrigerant)?.opening).toEqual(closing);
        for (const book of second.values()) {
          const standing = standingOf(ledger).filter(
            ({ refrigerant, happenedAt }) => refrigerant === book.refrigerant && happenedAt >= instant(cut),
          );
          const sum = (from: AccountKind, to: AccountKind): number =>
            standing
              .filter((movement) => kindOf(movement.from) === from && kindOf(movement.to) === to)
              .reduce((grams, movement) => grams + movement.grams, 0);
          expect([book.charged, book.recovered]).toEqual([sum('cylinder', 'circuit'), sum('circuit', 'cylinder')]);
        }
      }),
      { numRuns: 300 },
    );
  });
});
