import { describe, expect, test } from 'vitest';
import { browserCounts, lastLine, sum, vitestCounts } from './counts.ts';

const vitest = (more: object = {}): string => JSON.stringify({ passed: 3, failed: 0, skipped: [], errors: 0, ...more });

describe('counts of a run', () => {
  test('an error outside every test is a failure', () => {
    expect(vitestCounts(vitest({ errors: 2 }), 1)).toEqual({ passed: 3, failed: 2, skipped: [] });
    expect(vitestCounts(vitest(), 1)).toEqual({ passed: 3, failed: 1, skipped: [] });
  });

  test('a run that ended before its report is a failure', () => {
    expect(vitestCounts(undefined, 0).failed).toBe(1);
    expect(browserCounts(undefined, 0).failed).toBe(1);
  });

  test('a browser test that passed on its second try is a failure, and skipped ones are named', () => {
    const report = {
      stats: { expected: 4, unexpected: 1, flaky: 1, skipped: 1 },
      suites: [
        {
          title: 'story.spec.ts',
          suites: [
            { title: 'visit', specs: [{ title: 'prints', tests: [{ projectName: 'desk', status: 'skipped' }] }] },
          ],
        },
      ],
    };
    expect(browserCounts(JSON.stringify(report), 1)).toEqual({
      passed: 4,
      failed: 2,
      skipped: ['story.spec.ts > visit > prints [desk]'],
    });
  });

  test('the parts are summed into one line', () => {
    const total = sum([
      { passed: 2, failed: 0, skipped: ['a'] },
      { passed: 3, failed: 0, skipped: [] },
    ]);
    expect(lastLine(total, false)).toEqual({ text: '5 passed, 0 failed, 1 skipped', ok: true });
  });

  test('in CI a skipped test is a failed one', () => {
    expect(lastLine({ passed: 5, failed: 0, skipped: ['a'] }, true)).toEqual({ text: '5 passed, 1 failed', ok: false });
  });

  test('a run that tried nothing is not well', () => {
    expect(lastLine({ passed: 0, failed: 0, skipped: [] }, false).ok).toBe(false);
  });
});
