import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { expect, test } from 'vitest';
import { Agenda } from './agenda.ts';
import { Moments } from './moments.ts';

const calendar = makeCalendar(Temporal as never);
/** A Wednesday. */
const agenda = () => new Agenda(new Moments({ calendar, today: '2026-11-25', zone: 'America/Denver' }));

test('a morning, then an afternoon, then the next workday', () => {
  const book = agenda();
  const days = Array.from({ length: 5 }, () => book.book('technician', { offset: 1, minutes: 60 }).offset);
  expect(days).toEqual([1, 1, 2, 2, 5]);
});
test('long work needs a morning', () => {
  const book = agenda();
  expect(book.book('technician', { offset: 1, minutes: 300 })).toMatchObject({ offset: 1, start: 450 });
  expect(book.book('technician', { offset: 1, minutes: 300 }).offset).toBe(2);
});
test('backwards in time where it is asked for, and never on a day that is kept free', () => {
  const book = agenda();
  book.block('technician', -3);
  // Sunday and Saturday lie between, Friday is the fifth day before, Sunday the third.
  expect(book.book('technician', { offset: -3, minutes: 60, step: -1 }).offset).toBe(-5);
  book.block('technician', 0);
  expect(book.book('technician', { offset: 0, minutes: 60 }).offset).toBe(1);
});
