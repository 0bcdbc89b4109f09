import { makeCalendar, uuidv7 } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, test } from 'vitest';
import { scenario } from './scenario.ts';

const calendar = makeCalendar(Temporal as never);
const idOf = (nth: number): string => uuidv7(nth, new Uint8Array(10));
const known = {
  people: { technician: idOf(1), 'Odell Marsh': idOf(2), 'Juno Pell': idOf(3) },
  store: idOf(4),
  firstVan: idOf(5),
  firstDetector: idOf(6),
};
const ask = (today: string, seed = 'heron vale') => scenario({ calendar, zone: 'America/Denver', today, known, seed });

test('the same day and seed give the same story, to the last id', () => {
  expect(ask('2026-11-25')).toEqual(ask('2026-11-25'));
  expect(ask('2026-11-25', 'another')).not.toEqual(ask('2026-11-25'));
});
