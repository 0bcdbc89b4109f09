/** `suggest` against a second reckoning of the same rules, and by hand. */
import process from 'node:process';
import { makeCalendar } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { mayPlace, MOST_OFFERS, suggest } from './index.ts';
import type { Candidate, Certificate, SuggestRequest } from './index.ts';
import { fewOf, frontByHand, ms, pairs, windowOf } from './testing/suggest-by-hand.ts';
import type { Place } from './testing/suggest-by-hand.ts';

const calendar = makeCalendar(Temporal as never);
const MINUTE = 60_000;
// The same cases at each run; SEED=<number> tries others.
fc.configureGlobal({ seed: Number(process.env['SEED'] ?? 20_261_125) });

function expectOnFront(request: SuggestRequest): number {
  const front = frontByHand(request);
  const { offers } = suggest(request);
  const offered = offers.map(({ startsAt, driveMinutes }) => `${ms(startsAt)} ${driveMinutes}`);
  expect(offered).toEqual(fewOf(pairs(front)));
  for (const offer of offers) {
    const same = front.filter(({ startMs, drive }) => startMs === ms(offer.startsAt) && drive === offer.driveMinutes);
    expect(same.map(({ who }) => who).sort()).toEqual([offer.personId, ...offer.alsoPersonIds].sort());
    expect(offer.slackMinutes).toBe(same[0]!.slack);
    // What the command will be sent names the same moment.
    const wall = calendar.at(offer.day, offer.time, request.zone);
    expect(wall.ok ? wall.instant : offer.which && 'earlier' in wall && wall[offer.which]).toBe(offer.startsAt);
  }
  return pairs(front).length;
}

const DENVER = 'America/Denver';
const at = (text: string, zone = DENVER): string =>
  calendar.instant(Temporal.PlainDateTime.from(text).toZonedDateTime(zone).toInstant().toString());
const place = (km: number): Place => ({ latitude: 39.7, longitude: -105 + km / 85.56 });
const paper = (type: string, more: Partial<Certificate> = {}): Certificate => ({ scheme: 'us-608', type, ...more });

/** Weeks of different kinds: an ordinary one, and such in which clocks change on a Sunday, on a Friday, by half an hour. */
const WEEKS = [
  { zone: DENVER, from: '2026-05-04T00:00' },
  { zone: DENVER, from: '2026-03-05T00:00' },
  { zone: DENVER, from: '2026-10-29T00:00' },
  // Egypt, Friday 24 April 2026: midnight becomes 01:00. Thursday 29 October 2026: 24:00 becomes 23:00.
  { zone: 'Africa/Cairo', from: '2026-04-22T00:00' },
  { zone: 'Africa/Cairo', from: '2026-10-27T00:00' },
  { zone: 'Australia/Lord_Howe', from: '2026-04-02T00:00' },
] as const;

const anyPlace = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 0, max: 60 }).map(place) },
  { weight: 1, arbitrary: fc.constant(null) },
);
const anyPapers = fc.oneof(
  { weight: 3, arbitrary: fc.constant([paper('universal')]) },
  fc
    .subarray(['I', 'II', 'III', 'apprentice'])
    .map((types) => types.map((type) => paper(type, { registeredOn: '2026-01-02' }))),
  fc.constantFrom('2026-03-08', '2026-05-05', '2026-10-31').map((endsOn) => [paper('II', { endsOn })]),
);
const anyStop = fc.record({
  quarters: fc.integer({ min: -40, max: 96 * 6 }),
  off: fc.constantFrom(0, 0, 0, 7),
  minutes: fc.constantFrom(30, 45, 60, 120, 240, 600),
  place: anyPlace,
});
const anyRequest: fc.Arbitrary<SuggestRequest> = fc
  .record({
    week: fc.constantFrom(...WEEKS),
    nowQuarters: fc.integer({ min: 0, max: 96 * 3 }),
    nowOff: fc.integer({ min: 0, max: 14 }),
    opens: fc.option(fc.integer({ min: -96, max: 96 * 5 }), { nil: undefined }),
    due: fc.option(fc.integer({ min: -20, max: 96 * 9 }), { nil: undefined, freq: 8 }),
    second: fc.option(fc.integer({ min: 0, max: 96 * 9 }), { nil: undefined, freq: 1 }),
    minutes: fc.constantFrom(30, 45, 60, 180),
    pressure: fc.constantFrom('high' as const, 'low' as const),
    place: anyPlace,
    workingDay: fc.constantFrom(undefined, undefined, { from: '00:00', to: '24:00' }, { from: '06:10', to: '13:50' }),
    people: fc.array(fc.record({ papers: anyPapers, stops: fc.array(anyStop, { maxLength: 9 }) }), {
      minLength: 1,
      maxLength: 4,
    }),
  })
  .map((made) => {
    const { zone } = made.week;
    const base = ms(at(made.week.from, zone));
    const instant = (quarters: number, off = 0): string => calendar.fromEpochMs(base + (quarters * 15 + off) * MINUTE);
    const now = instant(made.nowQuarters, made.nowOff);
    const opensAt = made.opens === undefined ? null : instant(made.opens);
    const dues = [made.due, made.second].flatMap((due) => due ?? []).map((due) => made.nowQuarters + due);
    return {
      visit: {
        visitId: 'v0',
        purpose: 'follow-up' as const,
        opensCircuit: true,
        circuits: [{ appliance: 'stationary' as const, pressureClass: made.pressure }],
        duties: dues.map((due, i) => ({ opensAt: i === 0 ? opensAt : null, dueAt: instant(due) })),
        place: made.place,
      },
      minutes: made.minutes,
      ...(made.workingDay ? { workingDay: made.workingDay } : {}),
      now,
      zone,
      calendar,
      people: made.people.map(({ papers, stops }, i) => ({
        personId: `p${i}`,
        certificates: papers,
        stops: stops.map((stop, n) => ({
          visitId: n === 8 ? 'v0' : `v${i}${n}`,
          personId: n === 7 ? 'somebody-else' : `p${i}`,
          label: `Stop ${n}`,
          startsAt: instant(stop.quarters, stop.off),
          minutes: stop.minutes,
          place: stop.place,
        })),
      })),
    };
  });
const bounded = anyRequest.filter((request) => request.visit.duties.length > 0 && !windowOf(request).lost);
const unbounded = anyRequest.filter((request) => request.visit.duties.length === 0 || windowOf(request).lost);

describe('against every quarter hour and every person', () => {
  test('the offers are the front of slack and drive, and nothing of it is missed', () => {
    const lengths: number[] = [];
    fc.assert(
      fc.property(bounded, (request) => void lengths.push(expectOnFront(request))),
      { numRuns: 300 },
    );
    // The check has something to check.
    expect(lengths.filter((length) => length === 1).length).toBeGreaterThan(30);
    expect(lengths.filter((length) => length > 1).length).toBeGreaterThan(30);
  }, 60_000);
  test('and where no edge is left to keep', () => {
    fc.assert(
      fc.property(unbounded, (request) => void expectOnFront(request)),
      { numRuns: 15 },
    );
  }, 60_000);
});

interface Given extends Omit<Partial<SuggestRequest>, 'visit' | 'now'> {
  readonly now?: string;
  readonly due?: string | null;
  readonly opens?: string;
  readonly place?: Place | null;
}
const stop = (from: string, to: string, where: Place | null = null, label = 'Sedge Foods') => ({
  visitId: from,
  personId: 'kim',
  label,
  startsAt: at(from),
  minutes: (ms(at(to)) - ms(at(from))) / MINUTE,
  place: where,
});
const person = (personId: string, more: Partial<Candidate> = {}): Candidate => ({
  personId,
  certificates: [paper('universal')],
  stops: [],
  ...more,
});
/** One hour of follow-up at a place in the middle; Kim may go; Monday 4 May 2026, 06:00; due by the end of Friday. */
const asked = ({
  now = '2026-05-04T06:00',
  due = '2026-05-09T00:00',
  opens,
  place: where,
  ...more
}: Given = {}): SuggestRequest => ({
  visit: {
    visitId: 'v0',
    purpose: 'follow-up',
    opensCircuit: true,
    circuits: [{ appliance: 'stationary', pressureClass: 'high' }],
    duties: due === null ? [] : [{ dueAt: at(due), ...(opens === undefined ? {} : { opensAt: at(opens) }) }],
    place: where === undefined ? place(0) : where,
  },
  minutes: 60,
  people: [person('kim')],
  now: at(now),
  zone: DENVER,
  calendar,
  ...more,
});
/** What is offered, after it has been held against the second reckoning. */
const offered = (request: SuggestRequest) => {
  expectOnFront(request);
  return suggest(request).offers.map(({ day, time, which, personId, slackMinutes, driveMinutes }) =>
    [day.slice(5), time, which, personId, slackMinutes, driveMinutes].filter((part) => part != null).join(' '),
  );
};

describe('by hand', () => {
  test('an empty week: the first working minute, there and back', () =>
    // 4 May 08:00 to 9 May 00:00 is 112 h; less the hour of reserve 6660 minutes.
    expect(offered(asked())).toEqual(['05-04 07:00 kim 6660 60']));
  test('nobody is offered before they can be there', () => {
    // From home half an hour: 09:32 is too early to be there at 10:00.
    expect(offered(asked({ now: '2026-05-04T09:30' }))).toEqual(['05-04 10:00 kim 6480 60']);
    expect(offered(asked({ now: '2026-05-04T09:32' }))).toEqual(['05-04 10:15 kim 6465 60']);
  });
  test('a day without a stop costs two ways, a stop nearby only the way from it', () => {
    // 10 km: 13 km of road at 45 km/h, 17.3 minutes, so 18; the way home is driven anyhow.
    const people = [person('kim', { stops: [stop('2026-05-06T08:00', '2026-05-06T09:00', place(10))] })];
    expect(offered(asked({ people }))).toEqual(['05-04 07:00 kim 6660 60', '05-06 09:30 kim 3630 18']);
  });
  test('between two stops the drive that is saved counts', () => {
    const stops = [
      stop('2026-05-04T07:00', '2026-05-04T08:00', place(-10)),
      stop('2026-05-04T10:00', '2026-05-04T11:00', place(10)),
    ];
    // 18 to it and 18 on, and 35 without it: 20 km are 34.7 minutes.
    expect(offered(asked({ people: [person('kim', { stops })] }))).toEqual(['05-04 08:30 kim 6570 1']);
  });
  test('room for exactly the work and both drives is room', () => {
    const stops = [stop('2026-05-04T07:00', '2026-05-04T10:00'), stop('2026-05-04T12:00', '2026-05-04T13:00')];
    expect(offered(asked({ people: [person('kim', { stops })], place: null }))).toEqual(['05-04 10:30 kim 6450 30']);
  });
  test('who could be there at the same moment after the same drive is named; who knows the circuit goes first', () => {
    const people = [person('ada'), person('kim', { knowsIt: true }), person('lee')];
    const [only, ...none] = suggest(asked({ people })).offers;
    expect(none).toEqual([]);
    expect(only).toMatchObject({ personId: 'kim', alsoPersonIds: ['ada', 'lee'] });
    expect(only!.reasons.map(({ code }) => code)).toEqual(['soonest', 'slack', 'drive-alone', 'here-before']);
  });
  test('days off are looked at only where no working day keeps every rule, and it is said', () => {
    // Friday 8 May 2026, 16:30: no hour of work is left that day.
    const friday = { now: '2026-05-08T16:30' };
    expect(offered(asked({ ...friday, due: '2026-05-12T00:00' }))).toEqual(['05-11 07:00 kim 900 60']);
    const weekend = asked({ ...friday, due: '2026-05-11T00:00' });
    expect(offered(weekend)).toEqual(['05-09 07:00 kim 2340 60']);
    expect(suggest(weekend).offers[0]!.reasons.map(({ code }) => code)).toContain('day-off');
  });
  test('the window opens in the middle of a day, and the search begins with it', () => {
    const opening = asked({ opens: '2026-05-06T10:05' });
    expect(offered(opening)).toEqual(['05-06 10:15 kim 3585 60']);
    expect(suggest(opening)).toMatchObject({ fromDay: '2026-05-06', toDay: '2026-05-08' });
  });
  test('what is overdue is offered from now on; what nothing binds has no slack', () => {
    const late = asked({ now: '2026-05-11T08:00' });
    // 48 + 9.5 h after the edge, and the reserve.
    expect(offered(late)).toEqual(['05-11 08:30 kim -3510 60']);
    expect(suggest(late).offers[0]!.warnings.map(({ code }) => code)).toEqual(['already-late']);
    expect(offered(asked({ due: null }))).toEqual(['05-04 07:00 kim 60']);
  });
  test('no offer: papers are said, and the days that were looked at', () => {
    const people = [person('sam', { certificates: [paper('apprentice', { registeredOn: '2026-01-02' })] })];
    const none = suggest(asked({ people }));
    expect(none.offers).toEqual([]);
    expect(none.barred.map(({ personId, refusal }) => [personId, refusal.code, refusal.whose])).toEqual([
      ['sam', 'apprentice-alone', 'law'],
    ]);
    expect(none).toMatchObject({ fromDay: '2026-05-04', toDay: '2026-05-08' });
    expect(suggest(asked({ people: [] })).offers).toEqual([]);
  });
  test('on the night clocks are put back the two quarters of one name are told apart', () => {
    const night = { due: '2026-11-01T04:30', workingDay: { from: '00:00', to: '24:00' } };
    expect(offered(asked({ ...night, now: '2026-11-01T01:05' }))).toEqual(['11-01 01:45 earlier kim 105 60']);
    // 01:40 and half an hour: 01:10 comes again.
    expect(offered(asked({ ...night, now: '2026-11-01T01:40' }))).toEqual(['11-01 01:15 later kim 75 60']);
    // Until 01:40 by the clock: half an hour from 01:15 ends at 01:45, from 01:30 at 01:00.
    const short = { ...night, minutes: 30, workingDay: { from: '00:00', to: '01:40' } };
    expect(offered(asked({ ...short, now: '2026-11-01T00:35' }))).toEqual(['11-01 01:30 earlier kim 150 60']);
  });
  test('of a long front both ends stay, and what saves least goes first', () => {
    const days = ['04', '05', '06', '07', '08', '11', '12', '13'];
    const kms = [30, 25, 24, 18, 12, 6, 4, 1];
    const stops = days.map((day, i) => stop(`2026-05-${day}T07:00`, `2026-05-${day}T08:00`, place(kms[i]!)));
    const long = asked({ people: [person('kim', { stops })], due: '2026-05-14T00:00' });
    expect(expectOnFront(long)).toBe(8);
    const { offers } = suggest(long);
    expect(offers).toHaveLength(MOST_OFFERS);
    // 52, 44, 42, 32, 21, 11, 7 and 2 minutes: 42 saves 2, then 7 saves 4, then 44 saves 8.
    expect(offers.map(({ driveMinutes }) => driveMinutes)).toEqual([52, 32, 21, 11, 2]);
    expect(offers.at(-1)!.reasons.map(({ code }) => code)).toEqual(['slack', 'drive-beside', 'least-drive']);
  });
  test('of equal savings the later goes', () => {
    const days = ['04', '05', '06', '07', '08', '11'];
    // 9 km more are 15.6 minutes: 78, 63, 47, 32, 16; then 1.
    const kms = [45, 36, 27, 18, 9, 0.5];
    const stops = days.map((day, i) => stop(`2026-05-${day}T07:00`, `2026-05-${day}T08:00`, place(kms[i]!)));
    const long = asked({ people: [person('kim', { stops })], due: '2026-05-12T00:00' });
    expectOnFront(long);
    expect(suggest(long).offers.map(({ driveMinutes }) => driveMinutes)).toEqual([78, 63, 47, 16, 1]);
  });
});

test('an offer is judged by the rules of placing, and its reasons fit in 20 words', () =>
  fc.assert(
    fc.property(anyRequest, (request) => {
      for (const { personId, startsAt, slackMinutes, reasons } of suggest(request).offers) {
        const { stops, ...who } = request.people.find((one) => one.personId === personId)!;
        expect(mayPlace({ ...request, person: who, others: [], stops, startsAt })).toMatchObject({
          ok: true,
          slackMinutes,
        });
        expect(reasons.length).toBeGreaterThan(0);
        for (const { text } of reasons) expect(text.split(/\s+/).length, text).toBeLessThanOrEqual(20);
      }
    }),
    { numRuns: 200 },
  ));
test('the same question has the same answer, in whatever order the stops come', () =>
  fc.assert(
    fc.property(bounded, (request) => {
      const turned = request.people.map((one) => ({ ...one, stops: one.stops.toReversed() }));
      expect(suggest({ ...request, people: turned })).toEqual(suggest(request));
    }),
    { numRuns: 100 },
  ));
