import { describe, expect, test } from 'vitest';
import { taintsOf } from './index.ts';
import type { Draw, Holding, Taint } from './index.ts';
import { Office } from './testing/office.ts';
import type { Fact } from './testing/office.ts';

// Worked by hand. Circuit 1 leaks; 12,000 g go into A while the leak draws at most 4 g of air. A quarter of A goes to B
// (at most 1 g of air with it), a fifth of B into circuit 2 (0.2 g), a tenth of what circuit 2 then holds into C.
const inUse = (owner: string): Holding => ({ refrigerant: 'R-448A', owner, state: 'in-use' });
const recovered: Holding = { refrigerant: 'R-448A', owner: 'ann', state: 'recovered' };
const at = (hour: number): string => {
  const [whole, half] = [Math.floor(hour), hour % 1 === 0 ? '00' : '30'];
  return `2026-05-04T${String(whole).padStart(2, '0')}:${half}:00.000Z`;
};
const circuit = (owner: string, grams: number) => ({
  holding: inUse(owner),
  fullCharges: [{ id: 'plate', from: at(0), grams }],
  opening: 'assumed-full' as const,
});
const cylinder = { registered: recovered, deliveredNew: false };
const premises = {
  circuits: { one: circuit('ann', 90_000), two: circuit('ann', 5_400), three: circuit('bob', 3_000) },
  cylinders: { A: cylinder, B: cylinder, C: cylinder },
};
const draw = (to: string, grams: number, title: Draw['title']): Draw => ({ to, grams, title, whenEmpty: recovered });
const leak = { cause: 'recovery-below-site-pressure-open-leak', lowGrams: 0, highGrams: 4, minutes: 10 } as const;

type Step = readonly [string, Fact];
function recover(factId: string, hour: number, [from, to, grams]: readonly [string, string, number]): Step {
  const entry = { kind: 'recovery', factId, happenedAt: at(hour) } as const;
  return [
    factId,
    {
      draws: { [from]: draw(to, grams, { act: 'recovery' }) },
      circuits: { [from]: { ...entry, whole: false } },
      cylinders: { [to]: { ...entry, evacuated: true, raises: factId === 'recovery' ? [leak] : [] } },
    },
  ];
}
function transfer(factId: string, hour: number, [from, to, grams]: readonly [string, string, number]): Step {
  const entry = { kind: 'transfer', factId, happenedAt: at(hour) } as const;
  return [
    factId,
    {
      draws: { [from]: draw(to, grams, { act: 'move' }) },
      cylinders: { [from]: entry, [to]: { ...entry, evacuated: true } },
    },
  ];
}
function charge(factId: string, hour: number, [from, to, grams]: readonly [string, string, number]): Step {
  const entry = { kind: 'charge', factId, happenedAt: at(hour) } as const;
  return [
    factId,
    {
      draws: { [from]: draw(to, grams, { act: 'charge', customer: 'ann' }) },
      circuits: { [to]: { ...entry, reachedFull: 'unknown' } },
      cylinders: { [from]: entry },
    },
  ];
}
function check(
  factId: string,
  hour: number,
  [of, verdict]: readonly [string, 'within-shop-limit' | 'over-shop-limit'],
): Step {
  const entry = { kind: 'air-check', factId, happenedAt: at(hour) } as const;
  return [factId, { cylinders: { [of]: { ...entry, check: { refrigerant: 'R-448A', verdict, airGrams: 3 } } } }];
}

const RECOVERY = recover('recovery', 8, ['one', 'A', 12_000]);
const TRANSFER = transfer('transfer', 9, ['A', 'B', 3_000]);
const CHARGE = charge('charge', 10, ['B', 'two', 600]);
const ONWARD = recover('onward', 11, ['two', 'C', 600]);
const CHAIN = [RECOVERY, TRANSFER, CHARGE, ONWARD];

function tell(...steps: readonly Step[]): Office {
  const office = new Office(premises);
  for (const [id, fact] of steps) office.put(id, fact);
  return office;
}
const open = (office: Office, account: string): Taint[] =>
  taintsOf((office.doubts.get(account) ?? []).filter(({ clearedBy }) => clearedBy === null));
const highs = (office: Office): Record<string, number | null> =>
  Object.fromEntries(
    ['A', 'B', 'two', 'C'].flatMap((account) => open(office, account).map(({ highGrams }) => [account, highGrams])),
  );

describe('a doubt follows the gas', () => {
  test('through transfer, charge and recovery, by the share of the weight; the bound stays whole behind', () => {
    // Circuit 2 holds 5,400 + 600 g, of which 600 leave: a tenth of 0.2 g.
    expect(highs(tell(...CHAIN))).toEqual({ A: 4, B: 1, two: 0.2, C: 0.02 });
  });

  test('and each names its origin, the movement that brought it, and the doubt it comes from', () => {
    const office = tell(...CHAIN);
    const [first] = office.doubts.get('A') ?? [];
    const [second] = office.doubts.get('B') ?? [];
    const [third] = office.doubts.get('two') ?? [];
    expect(first).toMatchObject({ originFactId: 'recovery', viaFactId: null, spreadFrom: null, minutes: 10 });
    expect(second).toMatchObject({ originFactId: 'recovery', viaFactId: 'transfer', spreadFrom: first?.key });
    expect(third).toMatchObject({ originFactId: 'recovery', viaFactId: 'charge', spreadFrom: second?.key });
  });

  test('only as far as it makes a difference: what is told in order reaches nothing further', () => {
    const office = tell(RECOVERY, TRANSFER, CHARGE);
    office.put(...ONWARD);
    expect(office.gone).toEqual(['C', 'two']);
    office.put(...recover('elsewhere', 12, ['three', 'C', 10]));
    expect(office.gone).toEqual(['C', 'three']);
    // A late fact at the head of the chain reaches its end.
    const late = tell(TRANSFER, CHARGE, ONWARD);
    late.put(...RECOVERY);
    expect(late.gone).toEqual(['A', 'B', 'C', 'one', 'two']);
  });

  test('back to where it came from it does not add up beyond what the leak can have let in', () => {
    const back = transfer('back', 12, ['B', 'A', 2_400]);
    expect(highs(tell(RECOVERY, TRANSFER, CHARGE, back))).toMatchObject({ A: 4 });
  });

  test('two ways from one origin into one cylinder add up', () => {
    const direct = transfer('direct', 12, ['A', 'C', 4_500]); // half of the 9,000 g that are left: 2 g
    const round = transfer('round', 13, ['B', 'C', 1_200]); // half of the 2,400 g: 0.5 g
    expect(highs(tell(RECOVERY, TRANSFER, CHARGE, direct, round))).toMatchObject({ C: 2.5 });
  });

  test('without a bound it stays without one', () => {
    const [id, fact] = RECOVERY;
    const unbounded = { ...leak, highGrams: null };
    const entry = { ...fact.cylinders!['A']!, raises: [unbounded] };
    expect(highs(tell([id, { ...fact, cylinders: { A: entry } }], TRANSFER))).toEqual({ A: null, B: null });
  });

  test('a corrected recovery that drew no air after all withdraws the whole chain', () => {
    const [id, fact] = RECOVERY;
    const office = tell(...CHAIN);
    office.put(id, { ...fact, cylinders: { A: { ...fact.cylinders!['A']!, raises: [] } } });
    expect(highs(office)).toEqual({});
  });
});

describe('an air check', () => {
  test('within the limit clears what happened before it, in that cylinder', () => {
    expect(highs(tell(...CHAIN, check('check', 12, ['A', 'within-shop-limit'])))).toEqual({ B: 1, two: 0.2, C: 0.02 });
  });
  test('before the gas went on, it clears the chain, whenever it is told', () => {
    expect(highs(tell(...CHAIN, check('check', 8.5, ['A', 'within-shop-limit'])))).toEqual({});
  });
  test('at the same instant as an act it does not speak for the act', () => {
    expect(highs(tell(...CHAIN, check('check', 8, ['A', 'within-shop-limit'])))).toMatchObject({ A: 4 });
  });
  test('does not clear what comes after it', () => {
    const again = transfer('again', 13, ['B', 'A', 240]);
    const office = tell(...CHAIN, check('check', 12, ['A', 'within-shop-limit']), again);
    expect(highs(office)).toMatchObject({ A: 0.1 });
  });
  test('over the limit confirms the doubt, and what is drawn then goes under suspicion until its own check', () => {
    const after = transfer('after', 13, ['A', 'C', 900]);
    const office = tell(RECOVERY, TRANSFER, check('check', 12, ['A', 'over-shop-limit']), after);
    expect(open(office, 'A')).toMatchObject([{ cause: leak.cause, confirmed: true }]);
    expect(open(office, 'C')).toMatchObject([{ cause: leak.cause, confirmed: false, highGrams: 0.4 }]);
  });
  test('over the limit where nothing was suspected is a doubt of its own, without a bound', () => {
    const office = tell(recover('clean', 8, ['one', 'B', 3_000]), check('check', 12, ['B', 'over-shop-limit']));
    expect(open(office, 'B')).toEqual([{ cause: 'air-check-over', lowGrams: 3, highGrams: null, confirmed: true }]);
  });
  test('a later one within the limit clears an earlier one over it', () => {
    const over = check('over', 12, ['A', 'over-shop-limit']);
    expect(highs(tell(RECOVERY, check('within', 14, ['A', 'within-shop-limit']), over))).toEqual({});
  });
  test('says nothing of acid, or of which gas it is', () => {
    const [id, fact] = RECOVERY;
    const raises = [{ cause: 'burn-out', lowGrams: 0, highGrams: null } as const];
    const burnt: Step = [id, { ...fact, cylinders: { A: { ...fact.cylinders!['A']!, raises } } }];
    expect(highs(tell(burnt, check('check', 12, ['A', 'within-shop-limit'])))).toEqual({ A: null });
  });
  test('against another gas, or of mixed gas, says nothing at all', () => {
    const [id, fact] = check('check', 12, ['A', 'within-shop-limit']);
    const said = { refrigerant: 'R-22', verdict: 'within-shop-limit', airGrams: null } as const;
    const wrong: Step = [id, { cylinders: { A: { ...fact.cylinders!['A']!, check: said } } }];
    expect(highs(tell(RECOVERY, wrong))).toEqual({ A: 4 });
  });
});

describe('nothing of the gas is left', () => {
  test('a cylinder emptied and evacuated before its next fill is free of what was in it', () => {
    const empty = transfer('empty', 12, ['A', 'C', 12_000]);
    expect(highs(tell(RECOVERY, empty, recover('next', 13, ['three', 'A', 500])))).toEqual({ C: 4 });
  });
  test('one that still held gas is not, whatever was said', () => {
    const most = transfer('most', 12, ['A', 'C', 11_999]);
    expect(highs(tell(RECOVERY, most, recover('next', 13, ['three', 'A', 500])))).toMatchObject({ A: 4 });
  });

  const vacuum = (hour: number, held: boolean): Step => [
    'vacuum',
    { circuits: { two: { kind: 'vacuum', factId: 'vacuum', happenedAt: at(hour), held } } },
  ];
  const whole = ([id, fact]: Step): Step => [
    id,
    { ...fact, circuits: { two: { kind: 'recovery', factId: id, happenedAt: at(11), whole: true } } },
  ];
  test.each([
    ['recovered whole, and a vacuum that held', [...CHAIN.slice(0, 3), whole(ONWARD), vacuum(12, true)], true],
    ['recovered in part', [...CHAIN, vacuum(12, true)], false],
    [
      'recovered whole, and a vacuum that did not hold',
      [...CHAIN.slice(0, 3), whole(ONWARD), vacuum(12, false)],
      false,
    ],
    ['a vacuum before the gas came', [...CHAIN, vacuum(7, true)], false],
  ])('a circuit: %s', (_name, steps, isFree) => {
    expect(open(tell(...steps), 'two')).toHaveLength(isFree ? 0 : 1);
  });
  test('a circuit found flat, evacuated and charged anew is free; flat and topped off it is not', () => {
    const raises = [{ cause: 'circuit-flat', lowGrams: 0, highGrams: null } as const];
    const entry = { kind: 'readings', factId: 'flat', happenedAt: at(7), flat: true, raises } as const;
    const flat: Step = ['flat', { circuits: { two: entry } }];
    expect(open(tell(flat, vacuum(8, true)), 'two')).toEqual([]);
    expect(open(tell(flat), 'two')).toHaveLength(1);
  });
});

test('an un-evacuated cylinder is doubtful at its first fill, and not for it at a later one', () => {
  const [id, fact] = recover('first', 8, ['one', 'B', 500]);
  const unevacuated: Step = [id, { ...fact, cylinders: { B: { ...fact.cylinders!['B']!, evacuated: false } } }];
  expect(open(tell(unevacuated), 'B')).toMatchObject([{ cause: 'cylinder-not-evacuated', highGrams: null }]);
  const earlier = recover('earlier', 7, ['one', 'B', 500]);
  expect(open(tell(unevacuated, earlier), 'B')).toEqual([]);
});
