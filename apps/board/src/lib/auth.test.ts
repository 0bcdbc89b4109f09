import { describe, expect, test } from 'vitest';
import { inOurWords } from './auth.ts';
import { parseProblem } from './problem.ts';
import { slugOf } from './slug.ts';

describe('inOurWords', () => {
  test('a code that concerns one field lands on that field', () => {
    const said = inOurWords(parseProblem(422, { code: 'USER_ALREADY_EXISTS_USE_ANOTHER_EMAIL', message: 'User…' }));
    expect(said.errors[0]?.pointer).toBe('/email');
  });
  test('an unknown code keeps what the service said; a limit says how long to wait', () => {
    expect(inOurWords(parseProblem(400, { code: 'NEW', message: 'As it is' })).detail).toBe('As it is');
    expect(inOurWords(parseProblem(429, { message: 'x' })).detail).toBe('Wait a minute, then try again.');
  });
});

test.each([
  ['Quillet Refrigeration', 'quillet-refrigeration-7f'],
  ['Großmüller & Østergård', 'gro-muller-stergard-7f'],
  ['  ---  ', 'firm-7f'],
  ['冷凍', 'firm-7f'],
  ['a'.repeat(80), `${'a'.repeat(40)}-7f`],
])('slug of %s', (name, slug) => expect(slugOf(name, '7f')).toBe(slug));
