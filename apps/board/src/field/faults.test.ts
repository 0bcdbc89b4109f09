import { describe, expect, test } from 'vitest';
import { faultOf, focusAfter, isStop, pathOf, pathsToTry } from './faults.ts';

describe('pointer to field', () => {
  test.each([
    ['#/before/value', 'before.value'],
    ['/work/removes', 'work.removes'],
    ['#/body/after/value', 'after.value'],
    ['/a~1b/c~0d', 'a/b.c~d'],
    ['#', ''],
  ])('%s is %s', (pointer, path) => expect(pathOf(pointer)).toBe(path));
  test('a field shows the fault of its parts, and not that of a namesake', () => {
    const errors = [
      { pointer: '/before/value', detail: 'Gross before: enter a number.' },
      { pointer: '/readings/1/vacuum/unit', detail: 'Vacuum: choose a unit.' },
    ];
    expect(faultOf(errors, 'before')).toBe('Gross before: enter a number.');
    expect(faultOf(errors, 'be')).toBeUndefined();
    expect(faultOf(errors, 'readings.1.vacuum')).toBe('Vacuum: choose a unit.');
    expect(faultOf(errors, 'readings.0.vacuum')).toBeUndefined();
  });
  test('the focus goes to the nearest control', () =>
    expect(pathsToTry('#/readings/1/vacuum/value')).toEqual([
      'readings.1.vacuum.value',
      'readings.1.vacuum',
      'readings.1',
      'readings',
    ]));
  test('a stop before the act is told from a fault in a field', () => {
    expect(isStop({ type: '/problems/stopped-before-act', title: 'Stop', status: 422 })).toBe(true);
    expect(isStop({ type: '/problems/not-valid', title: 'Not valid', status: 400 })).toBe(false);
  });
  test('a fault leads to its field; a stop or a rule is read first', () => {
    const errors = [{ pointer: '/after/value', detail: 'Gross after: enter a number.' }];
    expect(focusAfter({ type: '/problems/not-valid', title: '', status: 400, errors })[0]).toBe('after.value');
    expect(focusAfter({ type: '/problems/stopped-before-act', title: '', status: 422, errors })).toEqual(['problem']);
    expect(focusAfter({ type: '/problems/not-found', title: '', status: 404 })).toEqual(['problem']);
  });
});
