import { describe, expect, test } from 'vitest';
import { errorsByField, fieldName, offlineProblem, parseProblem } from './problem.ts';

describe('parseProblem', () => {
  test('reads the members of RFC 9457, keeps extension members, and the pointer of its section 3 example', () => {
    const problem = parseProblem(422, {
      type: 'https://example.net/validation-error',
      title: 'Your request is not valid.',
      status: 422,
      errors: [
        { detail: 'must be a positive integer', pointer: '#/age' },
        { detail: "must be 'green', 'red' or 'blue'", pointer: '#/profile/color' },
      ],
      balance: 30,
    });
    expect(problem.title).toBe('Your request is not valid.');
    expect(problem.more).toEqual({ balance: 30 });
    expect(errorsByField(problem)).toEqual({
      age: 'must be a positive integer',
      'profile.color': "must be 'green', 'red' or 'blue'",
    });
  });
  test.each([null, 'text', [], 7])('an answer of %j still says something', (body) => {
    expect(parseProblem(503, body)).toMatchObject({ title: 'The server could not do this', errors: [] });
  });
  test('malformed entries are dropped, not shown empty', () => {
    expect(parseProblem(400, { errors: [null, { pointer: '/a' }, { pointer: '/b', detail: 'no' }] }).errors).toEqual([
      { pointer: '/b', detail: 'no' },
    ]);
  });
  test('the first message of a field wins', () => {
    const problem = parseProblem(400, {
      errors: [
        { pointer: '/a', detail: 'one' },
        { pointer: '/a', detail: 'two' },
      ],
    });
    expect(errorsByField(problem)).toEqual({ a: 'one' });
  });
});

test('fieldName undoes the escapes of RFC 6901 section 4', () => {
  expect(fieldName('/a~1b/m~0n')).toBe('a/b.m~n');
  expect(fieldName('/circuits/0/fullCharge')).toBe('circuits.0.fullCharge');
});

test('a call that never arrived has status 0 and says nothing was lost', () => {
  expect(offlineProblem()).toMatchObject({ status: 0, title: 'No connection' });
});

test('a rule of the law never bends; one of ours only where the answer says so; what is no rule is left out', () => {
  const rules = (...whose: string[]) =>
    parseProblem(422, {
      rules: whose.map((one) => ({ whose: one, overridable: true, code: 'x', text: 'No.', clause: '40 CFR 82.161' })),
    }).rules;
  expect(rules('law')).toEqual([
    { whose: 'law', overridable: false, code: 'x', clause: '40 CFR 82.161', text: 'No.', instead: '' },
  ]);
  expect(rules('ours', 'somebody', 'ours').map(({ overridable }) => overridable)).toEqual([true, true]);
  expect(parseProblem(422, { rules: 'law' }).rules).toEqual([]);
});
