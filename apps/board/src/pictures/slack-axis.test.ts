import { describe, expect, test } from 'vitest';
import { AXIS_PX, foldDay, percent, slackParts, slackX, spanWords, type SlackLane } from './slack-axis.ts';

describe('slackX', () => {
  test('today, the seventh day and the twelfth week lie where the columns and the end are', () => {
    expect(slackX(0)).toBe(64);
    expect(slackX(1)).toBe(154);
    expect(slackX(7)).toBe(694);
    expect(slackX(84)).toBe(812);
    expect(AXIS_PX).toBe(812);
  });
  test('it never runs backwards, and closes up without a jump', () => {
    let last = -1;
    for (let d = -40; d <= 120; d += 1 / 24) {
      const x = slackX(d);
      expect(x).toBeGreaterThanOrEqual(last);
      expect(x - last).toBeLessThan(d < -39 ? 1e3 : 12);
      last = x;
    }
    expect(slackX(-400)).toBe(0);
    expect(slackX(400)).toBe(812);
  });
  test('a night has no width: 18 h and 06 h next morning are one line', () => {
    expect(foldDay(2 + 18 / 24)).toBe(3);
    expect(foldDay(3 + 6 / 24)).toBe(3);
    expect(foldDay(3 + 12 / 24)).toBe(3.5);
  });
  test('overdue closes up by the logarithm: 64 - 27 ln 2 for a day', () => {
    expect(slackX(-1)).toBeCloseTo(64 - 27 * Math.LN2, 9);
  });
  test('percent of the whole', () => expect(percent(203)).toBe('25%'));
});

const lane = (more: Partial<SlackLane>): SlackLane => ({
  opens: -3.264,
  edge: 7,
  now: (9 + 40 / 60) / 24,
  driveHours: 35 / 60,
  workHours: 0.75,
  reserveHours: 24,
  ...more,
});

describe('slackParts', () => {
  test('reserve, work and drive are counted back from the edge and touch', () => {
    const parts = slackParts(lane({}));
    if (parts.is !== 'open') throw new Error(parts.is);
    expect(parts.edge).toBe(694);
    expect(parts.reserve).toEqual({ x: 604, width: 90 });
    expect(parts.work.x + parts.work.width).toBeCloseTo(parts.reserve.x, 9);
    expect(parts.drive.x + parts.drive.width).toBeCloseTo(parts.work.x, 9);
    expect(parts.slack.x + parts.slack.width).toBeCloseTo(parts.drive.x, 9);
    expect(parts.slack.x).toBeCloseTo(64 + (90 * (9 + 40 / 60 - 6)) / 12, 9);
  });
  test('beyond the scaled week work and drive are 3 px, never less', () => {
    const parts = slackParts(lane({ edge: 26 }));
    if (parts.is !== 'open') throw new Error(parts.is);
    expect(parts.work.width).toBeCloseTo(3, 9);
    expect(parts.drive.width).toBeCloseTo(3, 9);
  });
  test('slack begins when the part arrives, and the wait is drawn before it', () => {
    const parts = slackParts(lane({ edge: 5, workHours: 4, waitsUntil: 3.5 }));
    if (parts.is !== 'open') throw new Error(parts.is);
    expect(parts.wait).toBeDefined();
    expect(parts.slack.x).toBe(64 + 90 * 3.5);
  });
  test('less time than the work needs leaves no slack to draw', () => {
    const parts = slackParts(lane({ edge: 1, workHours: 12 }));
    if (parts.is !== 'open') throw new Error(parts.is);
    expect(parts.slack.width).toBe(0);
  });
  test('an edge in the past is overdue to now; one beyond twelve weeks breaks up', () => {
    const over = slackParts(lane({ edge: -2, opens: -33 }));
    expect(over).toMatchObject({ is: 'overdue', edge: slackX(-2) });
    expect(slackParts(lane({ edge: 313 })).is).toBe('far');
    expect(slackParts(lane({ edge: 84 })).is).toBe('open');
  });
});

test.each([
  [57.7, '2 d 9 h'],
  [-57.7, '2 d 9 h'],
  [13 + 5 / 60, '13 h 05'],
  [0, '0 h 00'],
  [23.999, '23 h 59'],
  [24 * 10 - 0.001, '9 d 23 h'],
  [24 * 311, '311 d'],
])('%d hours are %s', (hours, words) => expect(spanWords(hours)).toBe(words));
