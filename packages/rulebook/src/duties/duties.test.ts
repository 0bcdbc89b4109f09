import { makeCalendar } from '@ullage/units';
import * as fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { duties, leakRate } from '../index.ts';
import type { CircuitEvent, DutiesInput, Duty, RulebookId, Use } from '../index.ts';

const calendar = makeCalendar(Temporal as never);
const lb = (value: string) => ({ value, unit: 'lb' }) as const;
let seq = 0;
/** An event known by its day; events written later in a story come later in the day. */
const on = <E extends object>(day: string, event: E) =>
  ({ id: `e${++seq}`, at: { on: day, seq }, ...event }) as unknown as CircuitEvent;
const addition = (day: string, mass: string | null) =>
  on(day, { kind: 'addition', mass: mass === null ? null : lb(mass) });
const found = (day: string, leakId = 'L') => on(day, { kind: 'leak-found', leakId });
const repair = (day: string, evacuated = true, leakId = 'L') => on(day, { kind: 'repair', leakId, evacuated });
const initial = (day: string, result = 'pass', leakIds = ['L']) =>
  on(day, { kind: 'initial-verification', leakIds, result });
const followUp = (day: string, result = 'pass', leakIds = ['L']) =>
  on(day, { kind: 'follow-up-verification', leakIds, result });
const state = (day: string, kind: string) => on(day, { kind });

interface Setting {
  readonly rulebook?: RulebookId;
  readonly use?: Use;
  readonly pounds?: string;
  readonly until?: string;
  readonly timeZone?: string;
}
const ask = (asOf: string, events: readonly CircuitEvent[], setting: Setting = {}): DutiesInput => ({
  rulebooks: [setting.rulebook ?? 'us-hfc'],
  method: 'annualizing',
  timeZone: setting.timeZone ?? 'America/Denver',
  asOf: `${asOf}T18:00:00Z`,
  until: setting.until,
  circuit: {
    refrigerant: setting.rulebook === 'us-ods' ? 'R-22' : 'R-448A',
    use: setting.use ?? 'commercial-refrigeration',
    fullCharges: [{ mass: lb(setting.pounds ?? '220') }],
  },
  events,
});
const at = (...args: Parameters<typeof ask>): readonly Duty[] => duties(ask(...args), calendar).duties;
const only = (all: readonly Duty[], kind: Duty['kind']) => all.filter((duty) => duty.kind === kind);
const one = (all: readonly Duty[], kind: Duty['kind']): Duty => only(all, kind)[0]!;

/** Two additions, the second of which is far over 20 %. */
const exceeds = (day: string, pounds = '220') => [
  addition(calendar.addDays(day, -40), '0.1'),
  addition(calendar.addDays(day, -20), '0.1'),
  addition(day, String(Number(pounds) / 5)),
];

describe('the clock of 40 CFR 82.157(c)-(f)', () => {
  test('E 3 March, repaired 20 March with evacuation, normal on 21 March: follow-up by 31 March', () => {
    const events = [
      ...exceeds('2026-03-03'),
      found('2026-03-03'),
      repair('2026-03-20'),
      initial('2026-03-20'),
      addition('2026-03-20', '5'),
      state('2026-03-21', 'normal-operation'),
    ];
    const all = at('2026-03-22', events, { rulebook: 'us-ods' });
    expect(all.map((duty) => [duty.kind, duty.state, duty.dueOn])).toEqual([
      ['inspection', 'open', '2026-04-02'],
      ['repair', 'discharged', '2026-04-02'],
      ['initial-verification', 'discharged', '2026-04-02'],
      ['follow-up-verification', 'open', '2026-03-31'],
    ]);
    expect(all.map((duty) => duty.clause)).toContain('40 CFR 82.157(e)');
  });
  test('a part on 15 May (E + 73): repair by 14 June, asked for by 2 April', () => {
    const events = [
      ...exceeds('2026-03-03'),
      found('2026-03-03'),
      on('2026-03-10', { kind: 'part-due', on: '2026-05-15', leakIds: ['L'] }),
      on('2026-03-30', { kind: 'extension', requestedOn: '2026-03-30', reason: 'part' }),
    ];
    const all = at('2026-04-10', events, { rulebook: 'us-ods' });
    expect(one(all, 'repair')).toMatchObject({ dueOn: '2026-06-14', provisional: true, state: 'open' });
    expect(one(all, 'extension-request')).toMatchObject({ dueOn: '2026-04-02', state: 'discharged' });
    const asked = at('2026-03-12', events.slice(0, -1), { rulebook: 'us-ods' });
    expect(one(asked, 'repair').dueOn).toBe('2026-04-02');
    expect(one(asked, 'extension-request')).toMatchObject({ dueOn: '2026-04-02', state: 'open' });
  });
  test('a part on 10 October is cut at E + 180; with a process shutdown at E + 270', () => {
    const part = on('2026-10-10', { kind: 'part-due', on: '2026-10-10', delivered: true, leakIds: ['L'] });
    const asked = on('2026-06-01', { kind: 'extension', requestedOn: '2026-06-01', reason: 'part' });
    const events = [...exceeds('2026-05-05'), found('2026-05-05'), asked, part];
    expect(one(at('2026-10-11', events), 'repair')).toMatchObject({ dueOn: '2026-11-01', provisional: false });
    const shut = [...events, state('2026-05-06', 'shutdown-needed')];
    const all = at('2026-10-11', shut);
    expect(one(all, 'repair').dueOn).toBe('2026-11-09');
    expect(one(all, 'extension-request').dueOn).toBe('2026-09-02');
    expect(one(all, 'inspection').dueOn).toBe('2026-06-04');
  });
  test('a leak that waits for nothing keeps its date', () => {
    const events = [
      ...exceeds('2026-05-05'),
      found('2026-05-05', 'L'),
      found('2026-05-05', 'M'),
      on('2026-05-08', { kind: 'part-due', on: '2026-07-01', leakIds: ['M'] }),
      on('2026-05-20', { kind: 'extension', requestedOn: '2026-05-20', reason: 'part' }),
    ];
    expect(only(at('2026-05-21', events), 'repair').map((duty) => [duty.number, duty.leakIds, duty.dueOn])).toEqual([
      [1, ['L'], '2026-06-04'],
      [2, ['M'], '2026-07-31'],
    ]);
  });
  test('without evacuation the ten days count from the first test', () => {
    const events = [...exceeds('2026-03-03'), repair('2026-03-10', false), initial('2026-03-12')];
    expect(one(at('2026-03-13', events), 'follow-up-verification')).toMatchObject({
      dueOn: '2026-03-22',
      provisional: false,
    });
  });
  test('evacuated and not charged yet: the follow-up has no date', () =>
    expect(
      one(
        at('2026-03-13', [...exceeds('2026-03-03'), repair('2026-03-10'), initial('2026-03-12')]),
        'follow-up-verification',
      ),
    ).toMatchObject({
      dueAt: null,
      state: 'not-yet-known',
    }));
  test('a test made after refrigerant went in is no initial test', () => {
    const events = [...exceeds('2026-03-03'), repair('2026-03-10'), addition('2026-03-10', '2'), initial('2026-03-10')];
    expect(one(at('2026-03-11', events), 'initial-verification')).toMatchObject({
      state: 'open',
      flags: ['refrigerant-added-before-test'],
    });
  });
  test('repaired on the last day is in time, a day later is late', () => {
    const repairedOn = (day: string) => one(at('2026-04-20', [...exceeds('2026-03-03'), repair(day)]), 'repair').state;
    expect([repairedOn('2026-04-02'), repairedOn('2026-04-03')]).toEqual(['discharged', 'discharged-late']);
  });
});

describe('episodes', () => {
  test('evidence may come before the addition: the same day, or an earlier repair that it shows', () => {
    const events = [
      addition('2026-02-01', '0.1'),
      addition('2026-03-01', '0.1'),
      found('2026-03-10'),
      repair('2026-03-12'),
      initial('2026-03-12'),
      addition('2026-03-15', '40'),
    ];
    const answer = duties(ask('2026-03-16', events), calendar);
    expect(answer.episodes).toMatchObject([
      { id: '2026-03-15', reachesBackTo: '2026-03-12T06:00:00.000Z', closedBy: null },
    ]);
    expect(one(answer.duties, 'initial-verification').state).toBe('discharged');
  });
  test('later additions attach and move no date', () => {
    const events = [...exceeds('2026-03-03'), addition('2026-03-20', '30'), addition('2026-04-01', '30')];
    expect(only(at('2026-04-01', events), 'repair').map((duty) => duty.dueOn)).toEqual(['2026-04-02']);
    const { circuit, ...rest } = ask('2026-04-01', events);
    const rates = leakRate({ ...circuit, ...rest, rulebook: 'us-hfc' }, calendar).calculations;
    expect(rates.map((rate) => rate.episode)).toEqual(
      [null, null, '2026-03-03', '2026-03-03', '2026-03-03'].slice(-rates.length),
    );
  });
  test('after a verified repair the next exceedance opens a new one', () => {
    const proven = [repair('2026-03-05', false), initial('2026-03-05'), followUp('2026-03-08')];
    const events = [...exceeds('2026-03-03'), ...proven, addition('2026-06-01', '60')];
    const answer = duties(ask('2026-06-02', events), calendar);
    expect(answer.episodes.map((episode) => [episode.id, episode.closedBy])).toEqual([
      ['2026-03-03', 'verification'],
      ['2026-06-01', null],
    ]);
    expect(only(answer.duties, 'repair').map((duty) => duty.key)).toEqual([
      'us-hfc|repair|2026-03-03|1',
      'us-hfc|repair|2026-06-01|1',
    ]);
  });
  test('one leak proven and one not leaves it open', () => {
    const events = [
      ...exceeds('2026-03-03'),
      found('2026-03-03', 'M'),
      repair('2026-03-05', false),
      initial('2026-03-05'),
      followUp('2026-03-08'),
    ];
    const answer = duties(ask('2026-03-09', events), calendar);
    expect(answer.episodes[0]!.closedAt).toBeNull();
    expect(one(answer.duties, 'repair')).toMatchObject({ state: 'open', leakIds: ['L', 'M'] });
    expect(only(answer.duties, 'follow-up-verification').map((duty) => duty.state)).toEqual([
      'discharged',
      'not-yet-known',
    ]);
  });
});

describe('plan (40 CFR 84.106(h), 82.157(h))', () => {
  const failing = [
    ...exceeds('2026-05-12'),
    found('2026-05-12'),
    repair('2026-05-20', false),
    initial('2026-06-11', 'fail'),
  ];
  test('failed on 11 June: plan by 11 July, once the repair date has passed', () => {
    expect(only(at('2026-06-11', failing), 'plan')).toEqual([]);
    expect(one(at('2026-06-12', failing), 'plan')).toMatchObject({
      dueOn: '2026-07-11',
      state: 'open',
      opensAt: '2026-06-12T06:00:00.000Z',
    });
    expect(one(at('2026-06-12', failing), 'repair')).toMatchObject({ dueOn: '2026-06-11', state: 'open' });
  });
  test('nothing done: due at E + 30, so already overdue', () =>
    expect(one(at('2026-07-01', exceeds('2026-05-12')), 'plan')).toMatchObject({ dueOn: '2026-06-11', state: 'open' }));
  test.each(['us-hfc', 'us-ods'] as const)('%s: plan of 1 July is finished by 1 July a year later', (rulebook) => {
    const events = [...failing, on('2026-07-01', { kind: 'plan', planKind: 'retirement', on: '2026-07-01' })];
    const all = at('2026-07-02', events, { rulebook });
    expect(one(all, 'plan').state).toBe('discharged');
    expect(one(all, 'repair').state).toBe('withdrawn');
    expect(one(all, 'plan-completion')).toMatchObject({ dueOn: '2027-07-01', state: 'open' });
    const retired = at('2027-07-02', [...events, state('2027-07-01', 'retired')], { rulebook });
    expect(one(retired, 'plan-completion').state).toBe('discharged');
  });
  test('Part 82 counts at most a year from when the plan was due', () => {
    const late = on('2026-08-01', { kind: 'plan', planKind: 'retrofit', on: '2026-08-01' });
    expect(one(at('2026-08-02', [...failing, late], { rulebook: 'us-ods' }), 'plan-completion').dueOn).toBe(
      '2027-07-11',
    );
    expect(one(at('2026-08-02', [...failing, late]), 'plan-completion').dueOn).toBe('2027-08-01');
  });
  test('relief asked for within 180 days is granted by 60 days of silence', () => {
    const plan = on('2026-07-01', { kind: 'plan', planKind: 'retrofit', on: '2026-07-01' });
    const completion = (request: string, asOf: string) =>
      one(at(asOf, [...failing, plan, on(request, { kind: 'relief-request', on: request })]), 'plan-completion').state;
    expect(completion('2026-12-28', '2027-02-26')).toBe('open');
    expect(completion('2026-12-28', '2027-02-27')).toBe('withdrawn');
    expect(completion('2026-12-29', '2027-03-30')).toBe('open');
  });
  test('proven late, the plan is withdrawn', () => {
    const events = [
      ...exceeds('2026-05-12'),
      repair('2026-06-20', false),
      initial('2026-06-20'),
      followUp('2026-06-25'),
    ];
    expect(one(at('2026-06-22', events.slice(0, -1)), 'plan').state).toBe('open');
    expect(one(at('2026-06-26', events), 'plan').state).toBe('withdrawn');
  });
});

describe('what must not slip', () => {
  test('repaired again before the follow-up: the new repair has its own tests', () => {
    const events = [
      ...exceeds('2026-03-03'),
      repair('2026-03-05', false),
      initial('2026-03-05'),
      repair('2026-03-10', false),
      initial('2026-03-11'),
    ];
    expect(
      only(at('2026-03-12', events), 'follow-up-verification').map((duty) => [duty.number, duty.state, duty.dueOn]),
    ).toEqual([
      [1, 'withdrawn', '2026-03-15'],
      [2, 'open', '2026-03-21'],
    ]);
  });
  test('an exceedance starts the four quarters again', () => {
    const events = [
      ...exceeds('2026-04-01', '620'),
      repair('2026-04-02', false),
      initial('2026-04-02'),
      followUp('2026-04-10'),
      addition('2026-08-01', '124'),
    ];
    const dates = only(at('2026-08-02', events, { pounds: '620', until: '2028-12-31' }), 'periodic-inspection').map(
      (duty) => duty.dueOn,
    );
    expect(dates).toHaveLength(6); // over in the second quarter: four more after it
    expect(dates.at(-1)).toBe('2027-10-10');
  });
  test('Part 82: a year without exceedance ends the inspections by calendar year', () => {
    const events = [
      ...exceeds('2026-04-01', '310'),
      repair('2026-04-02', false),
      initial('2026-04-02'),
      followUp('2026-04-10'),
    ];
    const second = (asOf: string) =>
      only(at(asOf, events, { pounds: '310', rulebook: 'us-ods' }), 'periodic-inspection')[1]?.state;
    expect([second('2027-04-10'), second('2027-04-11')]).toEqual(['open', 'withdrawn']);
  });
  test('two readings with two verdicts are named first, and open no duty', () => {
    const events = [
      addition('2026-01-10', '1'),
      addition('2026-03-01', '1'),
      on('2026-05-01', { kind: 'removal', mass: lb('100') }),
      addition('2026-05-01', '101'),
    ];
    const answer = duties(ask('2026-05-02', events), calendar);
    expect(answer.duties).toEqual([]);
    expect(answer.reasons[0]!.text).toContain('not settled');
  });
  test('charging that ends after midnight starts the provisional days at its end', () => {
    const charge = (id: string, instant: string): CircuitEvent => ({
      id,
      kind: 'addition',
      at: instant,
      mass: lb('2'),
      visit: 'night',
    });
    const events = [
      ...exceeds('2026-03-03'),
      repair('2026-03-05'),
      initial('2026-03-05'),
      charge('n1', '2026-03-06T05:30:00Z'),
      charge('n2', '2026-03-06T08:00:00Z'),
    ];
    expect(one(at('2026-03-07', events), 'follow-up-verification')).toMatchObject({
      dueOn: '2026-03-16',
      provisional: true,
      opensAt: '2026-03-06T08:00:00.000Z',
    });
  });
  test('the first unproven repair since the last addition is where an episode reaches back to', () => {
    const events = [
      addition('2026-02-01', '0.1'),
      addition('2026-03-01', '0.1'),
      repair('2026-03-04', false, 'M'),
      repair('2026-03-12'),
      addition('2026-03-15', '40'),
    ];
    expect(duties(ask('2026-03-16', events), calendar).episodes[0]!.reachesBackTo).toBe('2026-03-04T07:00:00.000Z');
  });
  test('a failed first test leaves the period as it was, and the next pass discharges', () => {
    const failed = [...exceeds('2026-03-03'), repair('2026-03-05', false), initial('2026-03-05', 'fail')];
    expect(one(at('2026-03-06', failed), 'repair')).toMatchObject({
      state: 'open',
      dueOn: '2026-04-02',
      flags: ['verification-failed'],
    });
    const again = [...failed, repair('2026-03-07', false), initial('2026-03-07')];
    expect(one(at('2026-03-08', again), 'initial-verification').state).toBe('discharged');
    expect(only(at('2026-05-01', again), 'plan')).toEqual([]);
  });
  test('gas with an ozone-depleting part and an HFC has duties under both books', () => {
    const input = ask('2026-03-04', exceeds('2026-03-03'));
    const both = duties(
      { ...input, rulebooks: ['us-ods', 'us-hfc'], circuit: { ...input.circuit, refrigerant: 'R-402A' } },
      calendar,
    );
    expect(only(both.duties, 'repair').map((duty) => duty.rulebook)).toEqual(['us-ods', 'us-hfc']);
  });
});

describe('inspections after an exceedance (40 CFR 84.106(g), 82.157(g))', () => {
  const proven = (pounds: string) => [
    ...exceeds('2026-04-01', pounds),
    repair('2026-04-02', false),
    initial('2026-04-02'),
    followUp('2026-04-10'),
  ];
  const listed = (setting: Setting, more: readonly CircuitEvent[] = [], asOf = '2026-04-11') =>
    only(at(asOf, [...proven(setting.pounds ?? '220'), ...more], setting), 'periodic-inspection').map((duty) => [
      duty.dueOn,
      duty.state,
    ]);
  test('620 lb commercial: every three months from the test, four times', () => {
    expect(listed({ pounds: '620', until: '2028-01-01' })).toEqual([
      ['2026-07-10', 'open'],
      ['2026-10-10', 'open'],
      ['2027-01-10', 'open'],
      ['2027-04-10', 'open'],
    ]);
    expect(listed({ pounds: '620' })).toEqual([['2026-07-10', 'open']]);
  });
  test('310 lb commercial and 40 lb comfort: a year from the test, not by calendar year', () => {
    expect(listed({ pounds: '310' })).toEqual([['2027-04-10', 'open']]);
    expect(listed({ pounds: '40', use: 'comfort-cooling' })).toEqual([['2027-04-10', 'open']]);
    expect(listed({ pounds: '620', use: 'comfort-cooling' })).toEqual([['2027-04-10', 'open']]);
  });
  test('310 lb R-22: one in each calendar year', () =>
    expect(listed({ pounds: '310', rulebook: 'us-ods', until: '2028-01-01' })).toEqual([
      ['2026-12-31', 'open'],
      ['2027-12-31', 'open'],
    ]));
  test('one inspection discharges one quarter, and another in the same quarter none', () => {
    const inspected = ['2026-06-01', '2026-06-20', '2026-10-20'].map((day) =>
      on(day, { kind: 'inspection', result: 'pass' }),
    );
    expect(listed({ pounds: '620' }, inspected, '2026-10-25')).toEqual([
      ['2026-07-10', 'discharged'],
      ['2026-10-10', 'discharged-late'],
      ['2027-01-10', 'open'],
    ]);
  });
});

describe('chronic leakers (40 CFR 84.106(j), 82.157(j))', () => {
  const report = (masses: readonly [string, string][]) =>
    only(
      at(
        '2027-01-20',
        masses.map(([day, mass]) => addition(day, mass)),
        { pounds: '180' },
      ),
      'chronic-report',
    );
  test('225.0 lb of 180 lb is 125.0 %: by 1 March; 224.9 lb is not', () => {
    expect(
      report([
        ['2026-02-01', '90'],
        ['2026-05-01', '75'],
        ['2026-09-01', '60'],
      ]),
    ).toMatchObject([{ dueOn: '2027-03-01', state: 'open' }]);
    expect(
      report([
        ['2026-02-01', '90'],
        ['2026-05-01', '75'],
        ['2026-09-01', '59.9'],
      ]),
    ).toEqual([]);
  });
  test('150 lb in December and 100 lb in January are two calendar years', () =>
    expect(
      report([
        ['2026-12-05', '150'],
        ['2027-01-10', '100'],
      ]),
    ).toEqual([]));
});

describe('dates in the zone of the site', () => {
  // America/Denver: daylight time from 8 March to 1 November 2026 (IANA tz database).
  test.each([
    ['2026-05-22', '2026-06-21', '2026-06-22T06:00:00.000Z'],
    ['2026-03-01', '2026-03-31', '2026-04-01T06:00:00.000Z'],
    ['2026-02-06', '2026-03-08', '2026-03-09T06:00:00.000Z'],
    ['2026-02-05', '2026-03-07', '2026-03-08T07:00:00.000Z'],
    ['2026-12-31', '2027-01-30', '2027-01-31T07:00:00.000Z'],
    ['2026-10-02', '2026-11-01', '2026-11-02T07:00:00.000Z'],
    ['2026-10-01', '2026-10-31', '2026-11-01T06:00:00.000Z'],
  ])('E on %s: repair by %s, that is before %s', (day, dueOn, dueAt) =>
    expect(one(at(day, exceeds(day)), 'repair')).toMatchObject({ dueOn, dueAt }),
  );
  test('an addition late in the evening counts on the day of the site, not of Greenwich', () => {
    const late = { id: 'late', kind: 'addition', at: '2026-06-02T05:30:00Z', mass: lb('44') } as const;
    const events = [...exceeds('2026-06-01').slice(0, 2), late];
    expect(one(at('2026-06-03', events), 'repair').dueOn).toBe('2026-07-01');
  });
});

describe('mothballing and retirement', () => {
  test('clocks stand still until refrigerant is put back, then go on', () => {
    const events = [...exceeds('2026-05-05'), state('2026-05-15', 'mothball')];
    expect(one(at('2026-07-01', events), 'repair').state).toBe('suspended');
    expect(only(at('2026-07-01', events), 'plan')).toEqual([]);
    const back = [...events, state('2026-07-15', 'return-to-service')];
    expect(one(at('2026-07-16', back), 'repair')).toMatchObject({ state: 'open', dueOn: '2026-08-04' });
  });
  test('a retired circuit has no open duty', () => {
    const all = at('2026-05-20', [...exceeds('2026-05-05'), state('2026-05-15', 'retired')]);
    expect(new Set(all.map((duty) => duty.state))).toEqual(new Set(['withdrawn']));
  });
  test('when the owner was told, and that they declined, is on the duty and discharges nothing', () => {
    const all = at('2026-05-20', [
      ...exceeds('2026-05-05'),
      state('2026-05-06', 'owner-told'),
      state('2026-05-07', 'owner-declined'),
    ]);
    expect(one(all, 'repair')).toMatchObject({
      state: 'open',
      ownerToldAt: '2026-05-06T06:00:00.000Z',
      ownerDeclinedAt: '2026-05-07T06:00:00.000Z',
    });
  });
});

describe('whatever order facts arrive in', () => {
  const kinds: readonly ((day: string) => CircuitEvent)[] = [
    (day) => addition(day, '9'),
    (day) => addition(day, null),
    (day) => on(day, { kind: 'removal', mass: lb('4') }),
    (day) => found(day),
    (day) => found(day, 'M'),
    (day) => repair(day),
    (day) => repair(day, false, 'M'),
    (day) => initial(day),
    (day) => initial(day, 'fail', []),
    (day) => followUp(day, 'pass', []),
    (day) => followUp(day, 'fail', ['M']),
    (day) => state(day, 'normal-operation'),
    (day) => on(day, { kind: 'inspection', result: 'pass' }),
    (day) => on(day, { kind: 'plan', planKind: 'retrofit', on: day }),
    (day) => state(day, 'mothball'),
    (day) => on(day, { kind: 'extension', requestedOn: day, reason: 'part' }),
    (day) => on(day, { kind: 'part-due', on: calendar.addDays(day, 50), leakIds: ['M'] }),
  ];
  // Some know their day and sequence, some an instant that others share: then the id decides.
  const event = fc
    .record({ kind: fc.nat({ max: kinds.length - 1 }), day: fc.nat({ max: 300 }), exact: fc.boolean() })
    .map(({ kind, day, exact }): CircuitEvent => {
      const shared = calendar.addDays('2025-12-20', Math.floor(day / 50) * 50);
      if (exact) return { ...kinds[kind]!(shared), at: `${shared}T18:00:00Z` };
      return kinds[kind]!(calendar.addDays('2025-12-20', day));
    });
  const story = fc
    .array(event, { minLength: 1, maxLength: 25 })
    .map((events) => [addition('2026-01-02', '5'), ...events]);
  const shuffled = story.chain((events) =>
    fc.tuple(fc.constant(events), fc.shuffledSubarray(events, { minLength: events.length })),
  );
  test('rates and duties are the same', () =>
    fc.assert(
      fc.property(shuffled, fc.constantFrom<RulebookId>('us-hfc', 'us-ods'), ([events, mixed], rulebook) => {
        const setting = { rulebook, until: '2028-06-01' };
        expect(duties(ask('2026-12-15', mixed, setting), calendar)).toEqual(
          duties(ask('2026-12-15', events, setting), calendar),
        );
        const rate = (own: readonly CircuitEvent[]) => {
          const { circuit, ...rest } = ask('2026-12-15', own, setting);
          return leakRate({ ...circuit, ...rest, rulebook }, calendar);
        };
        expect(rate(mixed)).toEqual(rate(events));
      }),
      { numRuns: 300 },
    ));
  test('every duty has its own key, and a due date is followed by its first instant', () =>
    fc.assert(
      fc.property(story, (events) => {
        const all = at('2026-12-15', events);
        expect(new Set(all.map((duty) => duty.key)).size).toBe(all.length);
        for (const { dueOn, dueAt } of all)
          expect(dueAt).toBe(dueOn && calendar.startOf(calendar.addDays(dueOn, 1), 'America/Denver'));
      }),
      { numRuns: 200 },
    ));
});
