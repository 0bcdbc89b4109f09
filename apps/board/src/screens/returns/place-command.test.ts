import { PlaceVisit } from '@ullage/contracts';
import { describe, expect, test } from 'vitest';
import { parseProblem } from '../../lib/problem.ts';
import {
  clockFrom,
  gapsOf,
  outcomeOf,
  overrideOf,
  placeBody,
  placeField,
  refusingRules,
  stepQuarter,
  type PlaceForm,
} from './place-command.ts';

const ID = '0197a1c0-0000-7000-8000-000000000001';
const OTHER = '0197a1c0-0000-7000-8000-000000000002';
const form: PlaceForm = { day: '2026-05-06', time: '1030', personId: ID, withPersonId: '', minutes: '45', which: '' };

describe('a time as typed', () => {
  test.each([
    ['9', '09:00'],
    ['930', '09:30'],
    ['9:30', '09:30'],
    ['0930', '09:30'],
    ['9:30 pm', '21:30'],
    ['12am', '00:00'],
    ['12 pm', '12:00'],
    ['23:59', '23:59'],
    ['24:00', undefined],
    ['9:60', undefined],
    ['13 pm', undefined],
    ['noon', undefined],
    ['', undefined],
  ])('%j is %s', (typed, clock) => expect(clockFrom(typed)).toBe(clock));
  test.each([
    ['10:30', 1, '10:45'],
    ['10:40', 1, '10:45'],
    ['10:40', -1, '10:30'],
    ['00:00', -1, '00:00'],
    ['23:45', 1, '23:45'],
    ['', 1, '07:00'],
  ] as const)('from %j, %d quarter on, is %s', (typed, steps, next) =>
    expect(stepQuarter(typed, steps, '07:00')).toBe(next),
  );
});

describe('the command', () => {
  test('is one the contract takes, with and without what is optional', () => {
    const plain = placeBody(form, { id: ID, version: 3 });
    expect(PlaceVisit.parse(plain)).toEqual(plain);
    expect(plain.time).toBe('10:30');
    const full = placeBody(
      { ...form, withPersonId: OTHER, which: 'later' },
      { id: ID, version: 3 },
      { 'double-booked': 'The other job is next door.' },
    );
    expect(PlaceVisit.parse(full)).toEqual(full);
    expect(full.withPersonIds).toEqual([OTHER]);
  });
  test('is not made from gaps; each is named at its field', () => {
    expect(gapsOf(form)).toEqual([]);
    const gaps = gapsOf({ day: '', time: 'noon', personId: '', withPersonId: '', minutes: '4', which: '' });
    expect(gaps.map(({ pointer }) => placeField(pointer))).toEqual(['day', 'time', 'personId', 'minutes']);
    expect(gapsOf({ ...form, withPersonId: ID })).toHaveLength(1);
  });
});

describe('a refusal', () => {
  test('of a race, of a rule and of a field are told apart', () => {
    expect(outcomeOf(parseProblem(409, { type: '/problems/stale' }))).toBe('lost');
    const rules = [{ whose: 'law', overridable: false, code: 'apprentice-alone' }];
    expect(outcomeOf(parseProblem(422, { type: '/problems/rule-forbids', rules }))).toBe('refused');
    expect(outcomeOf(parseProblem(422, { type: '/problems/not-possible' }))).toBe('mend');
  });
  test('says all its rules, and whether each bends: only our two can, and only where the answer says so', () => {
    const bends = (code: string, whose: string, overridable = true) =>
      refusingRules(parseProblem(422, { rules: [{ whose, overridable, code, text: 'Ends 10 May 2026.' }] }))[0];
    expect(bends('double-booked', 'ours')).toMatchObject({ bends: true, source: 'nobody is in two places at once' });
    expect(bends('double-booked', 'ours')?.why).toBe('Ends 10 May 2026.');
    expect(bends('outside-working-day', 'ours', false)?.bends).toBe(false);
    expect(bends('in-the-past', 'ours')?.bends).toBe(false);
    expect(bends('apprentice-alone', 'law')?.bends).toBe(false);
  });
  test('is overridden with one reason per rule, as the contract takes it', () => {
    const reasons = { 'double-booked': 'Next door.', 'outside-working-day': 'Shop opens late.', 'in-the-past': 'no' };
    const body = placeBody(form, { id: ID, version: 3 }, overrideOf(reasons));
    expect(PlaceVisit.parse(body).override).toEqual({
      'double-booked': 'Next door.',
      'outside-working-day': 'Shop opens late.',
    });
    expect(PlaceVisit.safeParse({ ...body, override: {} }).success).toBe(false);
  });
  test('leads to the field it points at', () => {
    expect(placeField('#/body/withPersonIds/0')).toBe('withPersonIds');
    expect(placeField('/time')).toBe('time');
  });
});
