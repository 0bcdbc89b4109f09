import { makeCalendar } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { mayPlace } from './index.ts';
import type { ApplianceKind, Certificate, PressureClass, Proposal, Stop } from './index.ts';

const calendar = makeCalendar(Temporal as never);
const zone = 'America/Denver';
const local = (day: string, time: string, at = zone) => {
  const found = calendar.at(day, time, at);
  if (!found.ok) throw new Error(`${day} ${time} ${found.fault}`);
  return found.instant;
};
const paper = (type: string, more: Partial<Certificate> = {}): Certificate => ({ scheme: 'us-608', type, ...more });
const apprentice = paper('apprentice', { registeredOn: '2025-09-01' });
const certified = { personId: 'kim', certificates: [paper('II')] };

/** A follow-up on a 220 lb R-448A circuit on Wednesday 6 May 2026 at 09:00, due by 10 May. */
const proposal = (more: Omit<Partial<Proposal>, 'visit'> & { visit?: Partial<Proposal['visit']> } = {}): Proposal => ({
  person: certified,
  others: [],
  startsAt: local('2026-05-06', '09:00'),
  minutes: 60,
  stops: [],
  now: local('2026-05-01', '08:00'),
  zone,
  calendar,
  ...more,
  visit: {
    visitId: 'v1',
    purpose: 'follow-up',
    opensCircuit: true,
    circuits: [{ appliance: 'stationary', pressureClass: 'high' }],
    duties: [{ opensAt: local('2026-04-30', '15:00'), dueAt: local('2026-05-11', '00:00') }],
    ...more.visit,
  },
});
const refusals = (of: Proposal) => {
  const answer = mayPlace(of);
  return answer.ok ? [] : answer.refusals;
};
const codes = (of: Proposal) => refusals(of).map((refusal) => refusal.code);
const warnings = (of: Proposal) => mayPlace(of).warnings.map((warning) => warning.code);

describe('a moment that may stand', () => {
  test('slack is the legal edge less the end of work less one hour', () =>
    // 6 May 10:00 to 11 May 00:00 is 110 h; less 1 h.
    expect(mayPlace(proposal())).toEqual({ ok: true, slackMinutes: 109 * 60, warnings: [] }));
  test('a call without a duty has no slack', () =>
    expect(mayPlace(proposal({ visit: { duties: [] } }))).toEqual({ ok: true, slackMinutes: null, warnings: [] }));
  test('a length that is none is a mistake of the program', () => {
    for (const minutes of [0, -5, 1.5, NaN]) expect(() => mayPlace(proposal({ minutes }))).toThrow(RangeError);
  });
});

// Egypt's clocks go from 23:59 on the last Thursday of April to 01:00 (IANA tz, Africa/Cairo: Apr lastFri 0:00).
test('work that ends with a day whose midnight is skipped ends at 24:00, outside the working day', () => {
  const zone = 'Africa/Cairo';
  const startsAt = local('2026-04-23', '22:00', zone);
  const workingDay = { from: '00:00', to: '23:00' };
  const late = proposal({
    zone,
    startsAt,
    minutes: 120,
    workingDay,
    now: local('2026-04-20', '08:00', zone),
    visit: { duties: [] },
  });
  expect(codes(late)).toEqual(['outside-working-day']);
  expect(codes({ ...late, workingDay: { from: '00:00', to: '24:00' } })).toEqual([]);
});

describe('certificate by pressure class', () => {
  const may = (certificate: Certificate, appliance: ApplianceKind, pressureClass: PressureClass | null) =>
    codes(
      proposal({
        person: { personId: 'kim', certificates: [certificate] },
        visit: { circuits: [{ appliance, pressureClass }] },
      }),
    ).length === 0;
  const s609: Certificate = { scheme: 'us-609', type: '609' };
  const held = [paper('I'), paper('II'), paper('III'), paper('universal'), s609];
  const [no, yes] = [false, true];
  // Columns: Type I, II, III, Universal, section 609.
  test.each<[ApplianceKind, PressureClass | null, boolean[], string]>([
    ['small', 'medium', [yes, no, no, yes, no], '40 CFR 82.161(a): Type I, small appliances'],
    ['small', 'high', [yes, no, no, yes, no], '40 CFR 82.161(a): Type I, small appliances'],
    ['small', 'very-high', [yes, no, no, yes, no], '40 CFR 82.161(a): Type I, small appliances'],
    ['stationary', 'medium', [no, yes, no, yes, no], '40 CFR 82.161(a): Type II, medium pressure'],
    ['stationary', 'high', [no, yes, no, yes, no], '40 CFR 82.161(a): Type II, high pressure'],
    ['stationary', 'very-high', [no, yes, no, yes, no], '40 CFR 82.161(a): Type II, very high pressure'],
    ['stationary', 'low', [no, no, yes, yes, no], '40 CFR 82.161(a): Type III, low pressure'],
    ['mvac-like', 'medium', [no, yes, no, yes, yes], '40 CFR 82.161(a): Type II or section 609'],
    ['mvac', 'medium', [no, no, no, no, yes], '40 CFR 82.34(a): section 609'],
    ['stationary', null, [yes, yes, yes, yes, yes], '40 CFR 82.154(a)(1): gas exempt from the prohibition'],
  ])('%s %s: %j (%s)', (appliance, pressureClass, expected) =>
    expect(held.map((certificate) => may(certificate, appliance, pressureClass))).toEqual(expected),
  );

  test('the refusal names law, clause and what would do, and cannot be overridden', () =>
    expect(refusals(proposal({ person: { personId: 'lee', certificates: [paper('I')] } }))).toEqual([
      {
        code: 'no-certificate',
        whose: 'law',
        text: 'No certificate for high-pressure gas: the law asks Type II or Universal.',
        clause: '40 CFR 82.161(a)',
        overridable: false,
        insteadText: 'Choose somebody with Type II or Universal.',
      },
    ]));
  test('two kinds of circuit on one visit ask for both', () => {
    const circuits = [
      { appliance: 'stationary', pressureClass: 'high' },
      { appliance: 'stationary', pressureClass: 'low' },
      { appliance: 'stationary', pressureClass: 'high' },
    ] as const;
    expect(codes(proposal({ visit: { circuits } }))).toEqual(['no-certificate']);
    const both = { personId: 'kim', certificates: [paper('II'), paper('III')] };
    expect(codes(proposal({ person: both, visit: { circuits } }))).toEqual([]);
  });
  test('a paper of another country opens nothing here', () =>
    expect(
      codes(proposal({ person: { personId: 'lee', certificates: [{ scheme: 'eu-2024-2215', type: 'II' }] } })),
    ).toEqual(['no-certificate']));
  test.each([
    [{ endsOn: '2026-05-06' }, []],
    [{ endsOn: '2026-05-05' }, ['certificate-ended']],
    [{ registeredOn: '2026-05-06' }, []],
    [{ registeredOn: '2026-05-07' }, ['certificate-not-yet']],
  ])('a certificate with %o on 6 May: %j', (dates, expected) =>
    expect(codes(proposal({ person: { personId: 'kim', certificates: [paper('II', dates)] } }))).toEqual(expected),
  );
  test('nothing is asked where no circuit is opened, except for an inspection', () => {
    const nobody = { personId: 'lee', certificates: [] };
    expect(codes(proposal({ person: nobody, visit: { opensCircuit: false, purpose: 'call' } }))).toEqual([]);
    expect(codes(proposal({ person: nobody, visit: { opensCircuit: false, purpose: 'inspection' } }))).toEqual([
      'no-certificate',
    ]);
  });
});

describe('registered apprentice', () => {
  const alone = proposal({ person: { personId: 'sam', certificates: [apprentice] } });
  test('alone is refused with the rule', () =>
    expect(refusals(alone)).toMatchObject([
      { code: 'apprentice-alone', whose: 'law', overridable: false, clause: '40 CFR 82.152, "Apprentice"; 82.161(a)' },
    ]));
  test('beside a certified technician may go', () => expect(codes({ ...alone, others: [certified] })).toEqual([]));
  test.each([
    ['the other is certified for other gas', { personId: 'lee', certificates: [paper('III')] }],
    ['the other is an apprentice too', { personId: 'lee', certificates: [apprentice] }],
    ['the other is the apprentice again', { personId: 'sam', certificates: [paper('II')] }],
    ['the other comes five minutes later', { ...certified, startsAt: local('2026-05-06', '09:05') }],
    ['the other leaves five minutes earlier', { ...certified, minutes: 55 }],
    ['the other comes on another day', { ...certified, startsAt: local('2026-05-07', '09:00') }],
  ])('%s: refused', (_, other) => expect(codes({ ...alone, others: [other] })).toEqual(['apprentice-alone']));
  const registered = (...on: string[]) => ({
    ...alone,
    others: [certified],
    person: { personId: 'sam', certificates: on.map((registeredOn) => paper('apprentice', { registeredOn })) },
  });
  // 40 CFR 82.152, "Apprentice": two years from first registering. The second anniversary is the first day without.
  test('two years end the day before the anniversary, and a later registration does not start them again', () => {
    expect(codes(registered('2024-05-07'))).toEqual([]);
    expect(codes(registered('2024-05-06'))).toEqual(['apprenticeship-over']);
    expect(codes(registered('2026-01-01', '2024-05-06'))).toEqual(['apprenticeship-over']);
    expect(codes(registered('2026-05-07'))).toEqual(['certificate-not-yet']);
  });
  test('a registration that ends earlier ends it earlier, and one that ends later does not prolong it', () => {
    const ending = (registeredOn: string, endsOn: string) => ({
      ...registered(),
      person: { personId: 'sam', certificates: [paper('apprentice', { registeredOn, endsOn })] },
    });
    expect(codes(ending('2025-09-01', '2026-05-06'))).toEqual([]);
    expect(codes(ending('2025-09-01', '2026-05-05'))).toEqual(['apprenticeship-over']);
    expect(codes(ending('2024-05-06', '2028-01-01'))).toEqual(['apprenticeship-over']);
  });
  test('without a date the two years cannot be counted', () =>
    expect(codes({ ...alone, person: { personId: 'sam', certificates: [paper('apprentice')] } })).toEqual([
      'apprenticeship-undated',
    ]));
  test('one who has meanwhile been certified goes alone', () =>
    expect(codes({ ...alone, person: { personId: 'sam', certificates: [apprentice, paper('II')] } })).toEqual([]));
});

describe('lawful window', () => {
  const lateDay = { workingDay: { from: '00:00', to: '23:59' } };
  test('ending exactly at the edge is in time, a minute later is not', () => {
    const clause = '40 CFR 84.106(e)';
    const edge = { visit: { duties: [{ dueAt: local('2026-05-10', '12:00'), clause }] } };
    expect(codes(proposal({ ...edge, startsAt: local('2026-05-10', '11:00') }))).toEqual([]);
    expect(refusals(proposal({ ...edge, startsAt: local('2026-05-10', '11:01') }))).toMatchObject([
      {
        code: 'after-legal-edge',
        whose: 'law',
        overridable: false,
        clause,
        insteadText: 'Start by 10 May 2026, 11:00.',
      },
    ]);
  });
  test('starting exactly at the opening counts, a minute earlier does not', () => {
    const opens = {
      visit: { duties: [{ opensAt: local('2026-05-06', '09:00'), dueAt: local('2026-05-11', '00:00') }] },
    };
    expect(codes(proposal(opens))).toEqual([]);
    expect(refusals(proposal({ ...opens, startsAt: local('2026-05-06', '08:59') }))).toMatchObject([
      { code: 'before-lawful-window', whose: 'law', overridable: false },
    ]);
  });
  test('on the last legal day it warns while an earlier day is left, and only then', () => {
    const onLast = { startsAt: local('2026-05-10', '09:00') };
    expect(warnings(proposal(onLast))).toEqual(['last-legal-day']);
    expect(codes(proposal(onLast))).toEqual([]);
    expect(warnings(proposal({ ...onLast, now: local('2026-05-09', '16:00') }))).toEqual(['last-legal-day']);
    expect(warnings(proposal({ ...onLast, now: local('2026-05-09', '16:01') }))).toEqual([]);
    expect(warnings(proposal({ ...onLast, now: local('2026-05-10', '07:00') }))).toEqual([]);
    // Ten hours fit into 07:00 to 17:00 of the day before; eleven do not, however early somebody is awake.
    const early = { ...onLast, now: local('2026-05-09', '05:00'), workingDay: { from: '07:00', to: '17:00' } };
    expect(warnings(proposal({ ...early, minutes: 600 }))).toEqual(['last-legal-day']);
    expect(warnings(proposal({ ...early, minutes: 660 }))).toEqual([]);
  });
  test('what is overdue can still be placed, and says that it is late', () => {
    const overdue = proposal({ now: local('2026-05-12', '08:00'), startsAt: local('2026-05-12', '09:00') });
    expect(codes(overdue)).toEqual([]);
    expect(warnings(overdue)).toEqual(['already-late']);
    expect(mayPlace(overdue).slackMinutes).toBe(-(34 + 1) * 60);
  });
  test('when nobody could still get there in time, late is allowed; while somebody could, it is refused', () => {
    // 60 minutes of work by midnight, 30 of driving: 22:30 is the last instant to leave.
    const next = { startsAt: local('2026-05-11', '08:00') };
    expect(codes(proposal({ ...next, now: local('2026-05-10', '22:30') }))).toEqual(['after-legal-edge']);
    expect(codes(proposal({ ...next, now: local('2026-05-10', '22:31') }))).toEqual([]);
  });
  test('where windows do not meet, the earliest edge rules and two visits are advised', () => {
    const duties = [
      { dueAt: local('2026-05-08', '00:00') },
      { opensAt: local('2026-05-08', '00:00'), dueAt: local('2026-06-08', '00:00') },
    ];
    expect(codes(proposal({ visit: { duties } }))).toEqual([]);
    expect(warnings(proposal({ visit: { duties } }))).toEqual(['windows-apart']);
    expect(codes(proposal({ visit: { duties }, startsAt: local('2026-05-08', '09:00') }))).toEqual([
      'after-legal-edge',
    ]);
  });
  test('across a change of clocks the edge stays where the law put it', () => {
    // Denver, 8 March 2026: 02:00 becomes 03:00; the day has 23 hours. 1 November: 25.
    const on = (day: string, next: string) =>
      proposal({
        ...lateDay,
        now: local(day, '00:00'),
        startsAt: local(day, '00:00'),
        minutes: 60,
        visit: { duties: [{ dueAt: local(next, '00:00') }] },
      });
    expect(mayPlace(on('2026-03-08', '2026-03-09')).slackMinutes).toBe((23 - 2) * 60);
    expect(mayPlace(on('2026-11-01', '2026-11-02')).slackMinutes).toBe((25 - 2) * 60);
    expect(mayPlace(on('2026-11-02', '2026-11-03')).slackMinutes).toBe((24 - 2) * 60);
  });
});

describe("the firm's own rules", () => {
  const stop = (time: string, minutes: number, more: Partial<Stop> = {}): Stop => ({
    visitId: 'v2',
    personId: 'kim',
    label: 'Rack B',
    startsAt: local('2026-05-06', time),
    minutes,
    ...more,
  });
  // The visit is 09:00 to 10:00; without coordinates every drive takes 30 minutes.
  test.each<[string, Stop, boolean]>([
    ['ends 30 minutes before', stop('07:30', 60), true],
    ['ends 29 minutes before', stop('07:31', 60), false],
    ['starts 30 minutes after', stop('10:30', 60), true],
    ['starts 29 minutes after', stop('10:29', 60), false],
    ['lies over it', stop('08:00', 240), false],
    ['lies inside it', stop('09:15', 15), false],
    ['is somebody else’s', stop('09:00', 60, { personId: 'lee' }), true],
    ['is this visit itself, being moved', stop('09:00', 60, { visitId: 'v1' }), true],
  ])('a stop that %s: %#', (_, other, fits) =>
    expect(codes(proposal({ stops: [other] }))).toEqual(fits ? [] : ['double-booked']),
  );
  test('drives are as long as the way between two known places', () => {
    const at = (longitude: number) => ({ latitude: 0, longitude });
    // 10 km on the equator: 13 km of road, 17.3 minutes, so 18.
    const near = { visit: { place: at(0) } };
    const place = at(10 / 111.195);
    expect(codes(proposal({ ...near, stops: [stop('07:42', 60, { place })] }))).toEqual([]);
    expect(refusals(proposal({ ...near, stops: [stop('07:43', 60, { place })] }))).toMatchObject([
      {
        code: 'double-booked',
        whose: 'ours',
        overridable: true,
        text: '18 minutes to drive to or from Rack B, and only 17 between.',
        insteadText: 'Clear of it from 09:01, or give a reason.',
      },
    ]);
  });
  test.each([
    ['07:00', 600, []],
    ['06:59', 60, ['outside-working-day']],
    ['16:00', 60, []],
    ['16:01', 60, ['outside-working-day']],
    ['16:00', 24 * 60, ['outside-working-day']],
  ])('working day 07 to 17: %s for %i minutes: %j', (time, minutes, expected) =>
    expect(codes(proposal({ startsAt: local('2026-05-06', time), minutes }))).toEqual(expected),
  );
  test('the working day is that of the site, on both sides of a change of clocks', () => {
    for (const day of ['2026-03-07', '2026-03-08', '2026-10-31', '2026-11-01']) {
      const at = (time: string) =>
        codes(proposal({ visit: { duties: [] }, now: local('2026-03-01', '08:00'), startsAt: local(day, time) }));
      expect(at('07:00')).toEqual([]);
      expect(at('06:59')).toEqual(['outside-working-day']);
    }
  });
  test('work until midnight belongs to the day before, for the working day and for papers', () => {
    const night = { startsAt: local('2026-05-06', '23:00'), workingDay: { from: '07:00', to: '24:00' } };
    const last = { personId: 'kim', certificates: [paper('II', { endsOn: '2026-05-06' })] };
    expect(codes(proposal({ ...night, person: last }))).toEqual([]);
    expect(codes(proposal({ ...night, person: last, minutes: 61 }))).toEqual([
      'certificate-ended',
      'outside-working-day',
    ]);
    expect(codes(proposal({ ...night, workingDay: undefined }))).toEqual(['outside-working-day']);
  });
  test('says where the person is, with the day only when it is another', () => {
    const say = (other: Stop) => refusals(proposal({ stops: [other] })).map(({ text }) => text);
    expect(say(stop('08:00', 120))).toEqual(['Already at Rack B, 08:00 to 10:00.']);
    expect(say(stop('08:00', 24 * 60))).toEqual(['Already at Rack B, 08:00 to 7 May 2026, 08:00.']);
  });
  test('now may be placed, a minute ago may not, and no reason changes that', () => {
    const now = local('2026-05-06', '09:00');
    expect(codes(proposal({ now }))).toEqual([]);
    expect(refusals(proposal({ now, startsAt: local('2026-05-06', '08:59') }))).toMatchObject([
      { code: 'in-the-past', whose: 'ours', overridable: false },
    ]);
  });
});

describe('every refusal', () => {
  const anyProposal = fc
    .record({
      offset: fc.integer({ min: -3_000, max: 20_000 }),
      minutes: fc.integer({ min: 5, max: 1440 }),
      types: fc.subarray(['I', 'II', 'III', 'universal', 'apprentice']),
      registeredOn: fc.constantFrom(undefined, '2023-01-01', '2026-01-01', '2027-01-01'),
      pressureClass: fc.constantFrom<PressureClass | null>('low', 'medium', 'high', 'very-high', null),
      stopAt: fc.integer({ min: -3_000, max: 20_000 }),
    })
    .map(({ offset, minutes, types, registeredOn, pressureClass, stopAt }) => {
      const base = proposal();
      const at = (shift: number) => calendar.fromEpochMs(calendar.epochMs(base.now) + shift * 60_000);
      return proposal({
        startsAt: at(offset),
        minutes,
        person: { personId: 'kim', certificates: types.map((type) => paper(type, { registeredOn })) },
        stops: [
          {
            visitId: 'v2',
            personId: 'kim',
            label: 'a label that somebody made very long indeed',
            startsAt: at(stopAt),
            minutes: 120,
          },
        ],
        visit: { circuits: [{ appliance: 'stationary', pressureClass }] },
      });
    });
  test('fits in 20 words, says what would work instead, and law is never overridable', () =>
    fc.assert(
      fc.property(anyProposal, (of) => {
        const answer = mayPlace(of);
        for (const warning of answer.warnings) expect(warning.text.split(/\s+/).length).toBeLessThanOrEqual(20);
        if (answer.ok) return;
        expect(answer.refusals.length).toBeGreaterThan(0);
        for (const { text, insteadText, whose, overridable } of answer.refusals) {
          expect(text.split(/\s+/).length).toBeLessThanOrEqual(20);
          expect(insteadText?.split(/\s+/).length).toBeLessThanOrEqual(20);
          if (whose === 'law') expect(overridable).toBe(false);
        }
      }),
      { numRuns: 500 },
    ));
  test('a moment let through by the law ends inside its window', () =>
    fc.assert(
      fc.property(anyProposal, (of) => {
        if (!mayPlace(of).ok) return;
        const [duty] = of.visit.duties;
        const end = calendar.epochMs(of.startsAt) + of.minutes * 60_000;
        expect(end).toBeLessThanOrEqual(calendar.epochMs(duty!.dueAt));
      }),
      { numRuns: 500 },
    ));
});
