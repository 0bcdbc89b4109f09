import { describe, expect, test } from 'vitest';
import { dutyLeft, flagWords } from './duty-left.ts';

describe('what is left of a duty', () => {
  const open = (dueOn: string | null, today: string) => dutyLeft({ state: 'open', dueOn }, today);
  test('the last legal day is not yet overdue', () => {
    expect(open('2026-05-10', '2026-05-10')).toEqual({ mark: 'soon', word: 'Due soon', left: 'today is the last day' });
    expect(open('2026-05-10', '2026-05-11')).toEqual({ mark: 'late', word: 'Overdue', left: 'by 1 day' });
  });
  test('ten days or less is soon', () => {
    expect(open('2026-05-10', '2026-04-30')).toMatchObject({ mark: 'soon', left: '10 days left' });
    expect(open('2026-05-10', '2026-04-29')).toMatchObject({ mark: 'fine', left: '11 days left' });
  });
  test('a duty without a date says so, and a done one is done whatever the day', () => {
    expect(open(null, '2026-05-10').mark).toBe('unsure');
    expect(dutyLeft({ state: 'discharged', dueOn: '2026-01-01' }, '2026-05-10').word).toBe('Done');
  });
  test('a flag without words yet still reads as words', () => {
    expect(flagWords('not-settled')).toBe('Not settled in law');
    expect(flagWords('some-newer-flag')).toBe('some newer flag');
  });
});
