import { randomBytes } from 'node:crypto';
import { makeCalendar, uuidv7 } from '@ullage/units';
import type { Instant } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { idsFrom } from './ids.ts';

const calendar = makeCalendar(Temporal);
const at = '2026-05-04T13:00:00.000Z' as Instant;
const causes = Array.from({ length: 50 }, (_, n) => uuidv7(1_777_777_777_000 + n, randomBytes(10)));
const of = (cause: string): string[] => {
  const next = idsFrom(calendar, { cause, at });
  return Array.from({ length: 20 }, next);
};

test('the same cause at the same instant makes the same ids, of version 7 and of that instant', () => {
  const ids = of(causes[0]!);
  expect(of(causes[0]!)).toEqual(ids);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  expect(Number.parseInt(ids[0]!.replaceAll('-', '').slice(0, 12), 16)).toBe(Date.parse(at));
});

test('ids ascend within a cause, and from one cause to the next of the same millisecond', () => {
  const all = causes.flatMap(of);
  expect(new Set(all).size).toBe(all.length);
  expect([...all].sort()).toEqual(all);
});
