import { afterEach, describe, expect, test, vi } from 'vitest';
import { changePassword, inOurWords, startContractor } from './auth.ts';
import { parseProblem } from './problem.ts';

afterEach(() => vi.unstubAllGlobals());

describe('inOurWords', () => {
  test('a code that concerns one field lands on that field', () => {
    const said = inOurWords(parseProblem(422, { code: 'USER_ALREADY_EXISTS_USE_ANOTHER_EMAIL', message: 'User…' }));
    expect(said.errors[0]?.pointer).toBe('#/email');
  });
  test('an unknown code keeps what the service said; a limit says how long to wait', () => {
    expect(inOurWords(parseProblem(400, { code: 'NEW', message: 'As it is' })).detail).toBe('As it is');
    const held = { title: 'Too many requests', detail: 'Too many tries for this account: try again in 4 minutes.' };
    expect(inOurWords(parseProblem(429, held))).toMatchObject({ title: 'Too many tries', detail: held.detail });
  });
});

test('too many wrong codes are told in our words', () => {
  const held = parseProblem(429, { code: 'ACCOUNT_TEMPORARILY_LOCKED', message: 'Locked' });
  expect(inOurWords(held).detail).toBe('Too many wrong codes. Wait a quarter of an hour, then try again.');
});

test('a wrong password is told at the field for the old one', async () => {
  vi.stubGlobal('fetch', async () => new Response(JSON.stringify({ code: 'INVALID_PASSWORD' }), { status: 400 }));
  const answer = await changePassword('x', 'a long enough sentence');
  expect(answer.ok ? [] : answer.problem.errors.map((one) => one.pointer)).toEqual(['#/currentPassword']);
});

test('a fault in the contractor lands on the contractor’s field, not on the person’s name', async () => {
  const errors = [
    { pointer: '#/name', detail: 'Contractor: give at most 120 characters.' },
    { pointer: '#/metadata/timeZone', detail: 'Time zone: choose one.' },
  ];
  vi.stubGlobal('fetch', async () => new Response(JSON.stringify({ title: 'Not valid', errors }), { status: 400 }));
  const answer = await startContractor({ name: 'x', timeZone: 'Mars/Base' });
  expect(answer.ok ? [] : answer.problem.errors.map((one) => one.pointer)).toEqual(['#/firm', '#/timeZone']);
});
