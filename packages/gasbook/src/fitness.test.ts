import { describe, expect, test } from 'vitest';
import { fitness } from './index.ts';
import type { FitnessInput, GasState, Portion, Taint } from './index.ts';

const gas = (refrigerant: string, grams: number, [state, owner]: readonly [GasState, string | null]): Portion => ({
  holding: { refrigerant, owner, state },
  grams,
});
const NEW = ['new', null] as const;
const ANNS = ['recovered', 'ann'] as const;
const BOBS = ['recovered', 'bob'] as const;
const air = (highGrams: number | null, confirmed = false): Taint => ({
  cause: 'recovery-below-site-pressure-open-leak',
  lowGrams: 0,
  highGrams,
  confirmed,
});
const doubt = (cause: Taint['cause']): Taint => ({ cause, lowGrams: 0, highGrams: null });
const obstacle = (code: string, clause: string) => ({ code, text: `Not to be filled: ${code}.`, clause });

const empty: FitnessInput = {
  kind: 'recovery',
  contents: [],
  taints: [],
  obstacles: [],
  requalifyBy: '2026-04-30',
  filledOn: null,
  today: '2026-04-30',
};
const used: FitnessInput = { ...empty, contents: [gas('R-448A', 12_000, ANNS)], filledOn: '2026-04-30' };
const bought: FitnessInput = { ...empty, kind: 'refillable', contents: [gas('R-448A', 40_000, NEW)] };
const withTaints = (of: FitnessInput, ...taints: Taint[]): FitnessInput => ({ ...of, taints });
const withObstacle = (of: FitnessInput, ...given: Parameters<typeof obstacle>): FitnessInput => ({
  ...of,
  obstacles: [obstacle(...given)],
});

// Law behind the table: 49 CFR 180.205(c) (requalification), 173.304a (fill, service pressure), 178.65 (specification 39);
// 40 CFR 82.154(d) and 82.156(h) (used gas), 82 subpart F appendix A 5.11.2 (0.5 % of other gas). The rest is common practice.
const CASES: readonly (readonly [string, FitnessInput, readonly string[]])[] = [
  ['an empty recovery cylinder on its last day', empty, ['recovery']],
  ['an empty one whose test date nobody read', { ...empty, requalifyBy: null }, ['recovery']],
  ['an empty one past its date', withObstacle(empty, 'requalification-overdue', '49 CFR 180.205(c)'), ['nothing']],
  [
    'an empty one too weak for the gas',
    withObstacle(empty, 'service-pressure-too-low', '49 CFR 173.304a(c)'),
    ['nothing'],
  ],
  ['an empty refillable', { ...empty, kind: 'refillable' }, ['recovery', 'return']],
  [
    'an empty disposable',
    withObstacle({ ...empty, kind: 'disposable' }, 'disposable-never-refilled', '49 CFR 178.65'),
    ['nothing'],
  ],
  ['one owner’s recovered gas', used, ['recovery', 'same-owner-only', 'return']],
  ['the same, full to its limit', withObstacle(used, 'full', '49 CFR 173.304a'), ['same-owner-only', 'return']],
  [
    'the same, past its date but filled before: it may stay until emptied',
    withObstacle({ ...used, today: '2026-06-01' }, 'requalification-overdue', '49 CFR 180.205(c)'),
    ['same-owner-only', 'return'],
  ],
  [
    'the same, filled a day after its date: not on the road',
    { ...withObstacle(used, 'requalification-overdue', '49 CFR 180.205(c)'), filledOn: '2026-05-01' },
    ['same-owner-only'],
  ],
  ['overfilled: not on the road', withObstacle(used, 'overfilled', '49 CFR 173.304a'), ['same-owner-only']],
  [
    'two owners’ recovered gas',
    { ...used, contents: [gas('R-448A', 6_000, ANNS), gas('R-448A', 6_000, BOBS)] },
    ['recovery', 'return'],
  ],
  [
    'the contractor’s own used gas',
    { ...used, contents: [gas('R-448A', 9, ['recycled', null])] },
    ['recovery', 'same-owner-only', 'return'],
  ],
  ['new gas in its refillable', bought, ['charging']],
  ['reclaimed gas', { ...bought, contents: [gas('R-22', 5_000, ['reclaimed', null])] }, ['charging']],
  [
    'new gas in a disposable past nothing',
    withObstacle({ ...bought, kind: 'disposable' }, 'disposable-never-refilled', '49 CFR 178.65'),
    ['charging'],
  ],
  [
    'a disposable that was refilled',
    withObstacle({ ...used, kind: 'disposable' }, 'disposable-never-refilled', '49 CFR 178.65'),
    ['same-owner-only'],
  ],
  [
    'exactly 0.5 % of another gas',
    { ...bought, contents: [gas('R-448A', 9_950, NEW), gas('R-22', 50, NEW)] },
    ['charging'],
  ],
  [
    'a gram more of it: mixed',
    { ...withObstacle(bought, 'mixed', 'AHRI 700'), contents: [gas('R-448A', 9_949, NEW), gas('R-22', 51, NEW)] },
    ['return', 'destroy'],
  ],
  ['air of a bounded few milligrams', withTaints(used, air(0.005)), ['recovery', 'same-owner-only', 'return']],
  ['air without a bound', withTaints(used, air(null)), ['recovery', 'return']],
  ['air over limit', withTaints(used, air(0.005, true)), ['return']],
  ['new gas under a bounded doubt', withTaints(bought, air(0.005)), ['charging', 'return']],
  ['a burn-out', withTaints(used, doubt('burn-out')), ['recovery', 'destroy']],
  ['nobody knows which gas', withTaints(used, doubt('identity-unsure')), ['recovery', 'destroy']],
  [
    'refilled disposable with mixed gas: nothing until it is emptied into another',
    {
      ...withObstacle(used, 'disposable-never-refilled', '49 CFR 178.65'),
      kind: 'disposable',
      contents: [gas('R-448A', 600, ANNS), gas('R-22', 500, ANNS)],
    },
    ['nothing'],
  ],
];

describe('fit for', () => {
  test.each(CASES)('%s', (_name, input, uses) => {
    expect(
      fitness(input)
        .filter(({ fit }) => fit)
        .map(({ use }) => use),
    ).toEqual(uses);
  });

  test('every use is answered, each with a reason of at most 20 words and its source', () => {
    for (const [name, input] of CASES) {
      const verdicts = fitness(input);
      expect(verdicts.map(({ use }) => use)).toHaveLength(6);
      for (const { use, reasons } of verdicts) {
        expect(reasons.length, `${name}: ${use}`).toBeGreaterThan(0);
        for (const { text, source } of reasons) {
          expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(20);
          expect(source).not.toBe('');
        }
      }
    }
  });

  test('the rule stands beside the reason', () => {
    const reasonsFor = (input: FitnessInput, use: string): string[] =>
      fitness(input)
        .find((verdict) => verdict.use === use)
        ?.reasons.map(({ source }) => source) ?? [];
    expect(reasonsFor(used, 'charging')).toEqual(['40 CFR 82.154(d), 82.156(h)']);
    expect(reasonsFor(empty, 'recovery')).toEqual(['49 CFR 180.205(c)']);
    expect(reasonsFor({ ...used, contents: [gas('R-448A', 1, ANNS), gas('R-22', 1, ANNS)] }, 'charging')).toEqual([
      '40 CFR 82 subpart F appendix A, 5.11.2',
      '40 CFR 82.154(d), 82.156(h)',
    ]);
  });

  test('a warning stays beside what is fit, and says that a gauge certifies nothing', () => {
    const same = fitness(withTaints(used, air(0.005))).find(({ use }) => use === 'same-owner-only');
    expect(same?.reasons.at(-1)?.text).toMatch(/suspected air.*gauge certifies no purity/);
  });
});
