import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { duties, headroom, leakRate } from './index.ts';
import type { CircuitEvent, Duty, LeakRateInput } from './index.ts';

// The worked example of 40 CFR 84.106(b): R-448A, commercial refrigeration, 220 lb; every figure by pencil.
const calendar = makeCalendar(Temporal as never);
const lb = (value: string) => ({ value, unit: 'lb' }) as const;

const history: CircuitEvent[] = [
  { id: 'a1', kind: 'addition', at: { on: '2025-12-01', seq: 1 }, mass: null, by: 'other' },
  { id: 'a2', kind: 'addition', at: { on: '2026-02-14', seq: 1 }, mass: lb('18'), by: 'other' },
];
const visit = 'v1';
const call: CircuitEvent[] = [
  { id: 'e1', kind: 'leak-found', at: '2026-04-30T15:00:00Z', leakId: 'L1', visit },
  { id: 'e2', kind: 'removal', at: '2026-04-30T15:30:00Z', mass: { value: '12000', unit: 'g' }, visit },
  { id: 'e3', kind: 'repair', at: '2026-04-30T16:00:00Z', leakId: 'L1', evacuated: true, visit },
  { id: 'e4', kind: 'initial-verification', at: '2026-04-30T16:30:00Z', leakIds: ['L1'], result: 'pass', visit },
  { id: 'e5', kind: 'addition', at: '2026-04-30T18:00:00Z', mass: { value: '12000', unit: 'g' }, visit },
  { id: 'e6', kind: 'addition', at: '2026-04-30T18:10:00Z', mass: lb('18'), visit },
  { id: 'e7', kind: 'inspection', at: '2026-04-30T18:30:00Z', result: 'fail', leakIds: ['L1'], visit },
];
const normal: CircuitEvent = { id: 'e8', kind: 'normal-operation', at: '2026-04-30T19:00:00Z', visit };

const circuit = {
  refrigerant: 'R-448A',
  use: 'commercial-refrigeration',
  fullCharges: [{ mass: lb('220'), method: 'manufacturer' }],
} as const;
const asked = (asOf: string, events: readonly CircuitEvent[]): LeakRateInput => ({
  ...circuit,
  rulebook: 'us-hfc',
  method: 'annualizing',
  timeZone: 'America/Denver',
  asOf,
  events,
});
const dutiesAt = (asOf: string, events: readonly CircuitEvent[]) =>
  duties({ rulebooks: ['us-hfc'], method: 'annualizing', timeZone: 'America/Denver', asOf, circuit, events }, calendar);
const brief = (all: readonly Duty[]) => all.map((d) => [d.kind, d.state, d.dueOn, d.dischargedBy.join(' ')]);

describe('the unit before the call', () => {
  const answer = leakRate(asked('2026-04-30T14:00:00Z', history), calendar);
  test('the first calculation under the rule uses 365 days: 18 / 220 = 8.18 %', () => {
    expect(answer.calculations).toHaveLength(1);
    expect(answer.calculations[0]).toMatchObject({ days: 365, substituted: true, exact: '9/110', over: false });
    expect(answer.calculations[0]!.ratePercentPerYear).toBeCloseTo(8.18, 2);
  });
  test('headroom on 30 April is 20 % of 220 lb x 75 / 365 = 9.041, rounded down', () => {
    expect(answer.headroomMass).toEqual(lb('9.04'));
    expect(headroom(asked('2026-04-30T14:00:00Z', history), calendar)).toMatchObject({ mass: lb('9.04'), days: 75 });
  });
});

describe('the visit', () => {
  test('18 lb in 75 days is 39.82 % and over; gas recovered and put back is not added', () => {
    const last = leakRate(asked('2026-04-30T20:00:00Z', [...history, ...call]), calendar).calculations.at(-1)!;
    expect(last).toMatchObject({ leakMass: lb('18'), days: 75, exact: '219/550', over: true, episode: 'v1' });
    expect(last.ratePercentPerYear).toBeCloseTo(39.82, 2);
    expect(last.alternative).toMatchObject({ over: true });
    expect(last.flags).toContain('not-settled');
  });
  test('gas recovered at the visit may go back on top of the headroom', () => {
    const recovered = asked('2026-04-30T15:45:00Z', [...history, ...call.slice(0, 2)]);
    // 9.041 lb + 12,000 g = 26.455 lb.
    expect(headroom(recovered, calendar).mass).toEqual(lb('35.49'));
  });
  test('after the charge nothing is left that day; 22 days later 20 % of 220 x 22 / 365 = 2.652', () => {
    expect(headroom(asked('2026-04-30T20:00:00Z', [...history, ...call]), calendar).mass).toEqual(lb('0'));
    expect(headroom(asked('2026-05-22T18:00:00Z', [...history, ...call]), calendar).mass).toEqual(lb('2.65'));
  });
  test('duties: evidence that came before the addition counts, the follow-up is provisional until the statement', () => {
    expect(brief(dutiesAt('2026-04-30T18:45:00Z', [...history, ...call]).duties)).toEqual([
      ['inspection', 'discharged', '2026-05-30', 'e7'],
      ['repair', 'discharged', '2026-05-30', 'e3'],
      ['initial-verification', 'discharged', '2026-05-30', 'e4'],
      ['follow-up-verification', 'open', '2026-05-10', ''],
    ]);
    const before = dutiesAt('2026-04-30T18:45:00Z', [...history, ...call]).duties.at(-1)!;
    const after = dutiesAt('2026-04-30T20:00:00Z', [...history, ...call, normal]).duties.at(-1)!;
    expect([before.provisional, after.provisional]).toEqual([true, false]);
    expect(after.dueAt).toBe('2026-05-11T06:00:00.000Z'); // midnight in Denver, daylight time
    expect(after.key).toBe('us-hfc|follow-up-verification|v1|1');
  });
  test('a passed follow-up closes the episode and sets the next inspection a year from the test', () => {
    const pass: CircuitEvent = {
      id: 'f1',
      kind: 'follow-up-verification',
      at: '2026-05-08T16:00:00Z',
      leakIds: ['L1'],
      result: 'pass',
    };
    const answer = dutiesAt('2026-05-09T16:00:00Z', [...history, ...call, normal, pass]);
    expect(brief(answer.duties).slice(3)).toEqual([
      ['follow-up-verification', 'discharged', '2026-05-10', 'f1'],
      ['periodic-inspection', 'open', '2027-05-08', ''],
    ]);
    expect(answer.episodes).toMatchObject([{ id: 'v1', closedBy: 'verification' }]);
  });
  test('a failed follow-up reopens the repair with its first date; once that has passed a plan is due 30 days after the test', () => {
    const fail: CircuitEvent = {
      id: 'f1',
      kind: 'follow-up-verification',
      at: '2026-05-08T16:00:00Z',
      leakIds: ['L1'],
      result: 'fail',
    };
    expect(brief(dutiesAt('2026-05-09T16:00:00Z', [...history, ...call, normal, fail]).duties)).toEqual([
      ['inspection', 'discharged', '2026-05-30', 'e7'],
      ['repair', 'open', '2026-05-30', ''],
      ['initial-verification', 'open', '2026-05-30', ''],
      ['follow-up-verification', 'withdrawn', '2026-05-10', ''],
      ['follow-up-verification', 'not-yet-known', null, ''],
    ]);
    const late = dutiesAt('2026-06-01T16:00:00Z', [...history, ...call, normal, fail]).duties;
    expect(late.find((d) => d.kind === 'plan')).toMatchObject({
      state: 'open',
      dueOn: '2026-06-07',
      opensAt: '2026-05-31T06:00:00.000Z',
    });
  });
});

describe('the same story on days that trip calendars up', () => {
  // America/Denver changes its clocks on 1 November 2026 and 14 March 2027 (IANA tz database).
  test.each([
    ['an ordinary day', '2026-05-20', '2026-06-19', '2026-05-30', '2026-05-31T06:00:00.000Z'],
    ['1 March', '2027-03-01', '2027-03-31', '2027-03-11', '2027-03-12T07:00:00.000Z'],
    ['31 December', '2026-12-31', '2027-01-30', '2027-01-10', '2027-01-11T07:00:00.000Z'],
    ['clocks put back', '2026-11-01', '2026-12-01', '2026-11-11', '2026-11-12T07:00:00.000Z'],
    ['clocks put forward within the days', '2027-03-04', '2027-04-03', '2027-03-14', '2027-03-15T06:00:00.000Z'],
  ])('%s: %s', (_, day, repairOn, followUpOn, followUpAt) => {
    const past: CircuitEvent[] = [
      { id: 'a1', kind: 'addition', at: { on: '2025-12-01', seq: 1 }, mass: null },
      { id: 'a2', kind: 'addition', at: { on: calendar.addDays(day, -75), seq: 1 }, mass: lb('18') },
    ];
    const onDay = (event: CircuitEvent): CircuitEvent =>
      typeof event.at === 'string' ? { ...event, at: event.at.replace('2026-04-30', day) } : event;
    const events = [...past, ...[...call, normal].map(onDay)];
    expect(headroom(asked(`${day}T14:00:00Z`, past), calendar).mass).toEqual(lb('9.04'));
    expect(leakRate(asked(`${day}T20:00:00Z`, events), calendar).calculations.map((own) => own.exact)).toEqual([
      '9/110',
      '219/550',
    ]);
    const all = dutiesAt(`${day}T20:00:00Z`, events).duties;
    expect(all.map((duty) => duty.dueOn)).toEqual([repairOn, repairOn, repairOn, followUpOn]);
    expect(all.at(-1)!.dueAt).toBe(followUpAt);
  });
  test('18 lb before the rule began count for days only: the visit then is the first calculation', () => {
    const early: CircuitEvent[] = [
      { id: 'a2', kind: 'addition', at: { on: '2025-12-16', seq: 1 }, mass: lb('18') },
      { id: 'a3', kind: 'addition', at: { on: '2026-03-01', seq: 1 }, mass: lb('18') },
    ];
    expect(leakRate(asked('2026-03-01T20:00:00Z', early), calendar).calculations).toMatchObject([
      { days: 365, exact: '9/110' },
    ]);
  });
});
