import { randomBytes } from 'node:crypto';
import type { Calendar, Instant } from '@ullage/units';
import { uuidv7 } from '@ullage/units';

/** Time and new ids, handed in so that a test can hold them. */
export interface Clock {
  now(): Instant;
  date(): Date;
  newId(): string;
}
/** The machine's own time, and ids that begin with it. */
export const systemClock = (calendar: Calendar): Clock => ({
  now: () => calendar.fromEpochMs(Date.now()),
  date: () => new Date(),
  newId: () => uuidv7(Date.now(), randomBytes(10)),
});
