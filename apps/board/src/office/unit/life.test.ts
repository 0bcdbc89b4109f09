import type { CircuitView, FactView } from '@ullage/contracts';
import { describe, expect, test } from 'vitest';
import { lifeOf, lifeSpan, lookMark, repairsByDay } from './life.ts';

const fact = (more: Partial<FactView>): FactView => ({
  id: 'f1',
  kind: 'repair',
  title: 'Repair',
  summary: '',
  circuitId: 'c1',
  happenedAt: '2026-04-30T17:30:00.000Z',
  recordedAt: '2026-04-30T17:31:00.000Z',
  by: 'Rosa Quill',
  correctsId: null,
  correctedById: null,
  photos: [],
  body: {},
  ...more,
});
const circuit = (more: Partial<CircuitView>): CircuitView => ({
  id: 'c1',
  tag: '0417-A',
  letter: 'A',
  refrigerant: 'R-448A',
  use: 'commercial-refrigeration',
  useText: 'commercial refrigeration',
  equipment: 'rack',
  subsector: null,
  decision: null,
  installedOn: null,
  fullCharge: {
    mass: { value: '220', unit: 'lb' },
    methodText: 'maker’s figure',
    fromOn: '2025-01-01',
    rangeText: null,
  },
  rulebooks: [],
  headroom: null,
  headroomWhyNot: null,
  latest: null,
  calculations: [],
  additions: [],
  leakPoints: [],
  looks: [],
  events: [],
  duties: [],
  explains: null,
  accountId: null,
  balanceGrams: 0,
  mixed: false,
  doubts: [],
  ...more,
});
const at = { zone: 'America/Denver', today: '2026-05-22' };

describe('the span of a life', () => {
  test('is never shorter than a year, so that a young slope is not overdrawn', () => {
    expect(lifeSpan([], [], '2026-05-22')).toEqual({ from: '2025-04-17', to: '2026-07-21' });
  });
  test('holds the oldest record and never gives more than a third to what is to come', () => {
    const span = lifeSpan(['2023-01-10'], ['2029-01-01'], '2026-05-22');
    expect(span.from < '2023-01-10').toBe(true);
    expect(span.to < '2027-08-01').toBe(true);
  });
});

test('repairs and tests of one day are one mark, by the day at the site, and a corrected fact is gone', () => {
  const events = [
    fact({}),
    fact({ id: 'f2' }),
    fact({ id: 'f3', kind: 'verification', happenedAt: '2026-05-01T03:00:00.000Z', body: { result: 'pass' } }),
    fact({ id: 'f4', kind: 'verification', happenedAt: '2026-05-06T18:00:00.000Z', body: { result: 'fail' } }),
    fact({ id: 'f5', happenedAt: '2026-05-09T18:00:00.000Z', correctedById: 'f6' }),
  ];
  expect(repairsByDay(events, at.zone)).toEqual([
    { day: '2026-04-30', text: '2 repairs, test: pass', mark: 'verified' },
    { day: '2026-05-06', text: 'test: fail', mark: 'refused' },
  ]);
});

test('a clear look in doubt is not drawn as clear', () => {
  expect(lookMark({ result: 'clear', inDoubt: true })).toBe('doubt');
  expect(lookMark({ result: 'could-not-reach', inDoubt: false })).toBe('unreached');
});

test('masses stand in the unit of the full charge, an unknown one stays unknown, and a window without a start begins at its addition', () => {
  const life = lifeOf(
    circuit({
      additions: [
        {
          factIds: ['a'],
          day: '2026-04-30',
          mass: { value: '288', unit: 'oz' },
          grams: 8165,
          kind: 'at-repair',
          reason: '',
          by: 'us',
          visitId: 'v',
        },
        {
          factIds: ['b'],
          day: '2025-12-01',
          mass: null,
          grams: null,
          kind: 'past',
          reason: '',
          by: 'other',
          visitId: null,
        },
      ],
      events: [fact({})],
      duties: [
        {
          id: 'd',
          key: 'k',
          kind: 'repair',
          title: 'Repair',
          rulebook: 'us-hfc',
          clause: '40 CFR 84.106(d)',
          responsible: 'owner-or-operator',
          opensAt: null,
          dueAt: '2026-05-31T06:00:00.000Z',
          dueOn: '2026-05-30',
          provisional: false,
          state: 'discharged',
          why: '',
          flags: [],
          dischargedBy: [
            {
              ...{ id: 'f1', title: 'Repair', summary: 'L1', happenedAt: '2026-04-30T17:30:00.000Z' },
              ...{ visitId: 'v', cylinderId: null, unitId: 'u', circuitLetter: 'A' },
            },
          ],
          visitId: null,
        },
      ],
    }),
    at,
  );
  expect(life.additions.map((one) => one.mass)).toEqual([18, undefined]);
  expect(life.duties).toEqual([
    { id: 'd', from: '2026-04-30', to: '2026-05-30', mark: 'done', doneOn: '2026-04-30', text: 'repair' },
  ]);
  // 18 of 220 lb
  expect(life.lossText).toBe('18 lb, 8 % of the charge');
});
