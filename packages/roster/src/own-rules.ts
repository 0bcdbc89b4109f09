/** The firm's own rules: common practice, and to be bent where practice must, with a reason that is kept. */
import type { Calendar, Day } from '@ullage/units';
import { localText } from './proposal.ts';
import type { Moment, Proposal, Refusal, Stop, Timing } from './proposal.ts';
import { travelMinutes } from './travel.ts';

const MS_PER_MINUTE = 60_000;
const LABEL_WORDS = 4;
export const WORKING_DAY = { from: '07:00', to: '17:00' } as const;
/** Monday to Friday: common practice, until a contractor's own days can be set. */
export const isWorkday = (day: Day, calendar: Pick<Calendar, 'weekday'>): boolean => calendar.weekday(day) <= 5;

/** Ours, yet not overridable: no reason sends anybody back in time. What was done then is reported, not planned. */
export function pastRefusals({ now, calendar }: Timing, moment: Moment): Refusal[] {
  if (moment.startMs >= calendar.epochMs(now)) return [];
  return [
    {
      code: 'in-the-past',
      whose: 'ours',
      text: 'This moment has passed.',
      overridable: false,
      insteadText: 'Choose a moment from now on; work already done is recorded, not planned.',
    },
  ];
}

/** Start and end must lie on one day at the site, inside its working hours; both edges belong to it. */
export function workingDayRefusals(proposal: Timing, moment: Moment): Refusal[] {
  const { calendar, zone } = proposal;
  const { from, to } = proposal.workingDay ?? WORKING_DAY;
  const starts = calendar.timeOf(proposal.startsAt, zone);
  const end = calendar.fromEpochMs(moment.endMs);
  // Work that ends as the day does ends at 24:00, also where the clocks skip midnight and the next day begins at 01:00.
  const ends = calendar.dayOf(end, zone) === moment.endDay ? calendar.timeOf(end, zone) : '24:00';
  if (moment.startDay === moment.endDay && starts >= from && ends <= to) return [];
  return [
    {
      code: 'outside-working-day',
      whose: 'ours',
      text: `${starts} to ${ends} is outside the working day, ${from} to ${to}.`,
      overridable: true,
      insteadText: `Start from ${from} and end by ${to}, or give a reason.`,
    },
  ];
}

/** One refusal for each of the person's stops that the visit and the drive between them leave no room for. */
export function bookingRefusals(proposal: Proposal, moment: Moment): Refusal[] {
  const { person, stops, visit } = proposal;
  return stops
    .filter((stop) => stop.personId === person.personId && stop.visitId !== visit.visitId)
    .flatMap((stop) => bookingRefusal(proposal, moment, stop));
}

/** A stop and the drive between it and a visit, which takes the same time both ways. */
export interface StopSpan {
  readonly fromMs: number;
  readonly toMs: number;
  readonly driveMs: number;
}
export function spanOf(stop: Stop, { visit, calendar }: Pick<Proposal, 'visit' | 'calendar'>): StopSpan {
  const fromMs = calendar.epochMs(stop.startsAt);
  return {
    fromMs,
    toMs: fromMs + stop.minutes * MS_PER_MINUTE,
    driveMs: travelMinutes(stop.place, visit.place) * MS_PER_MINUTE,
  };
}
/** The starts of a visit of `minutes` that a stop leaves no room for; at `after` and `before` themselves there is room. */
export const blockedStarts = ({ fromMs, toMs, driveMs }: StopSpan, minutes: number) => ({
  after: fromMs - driveMs - minutes * MS_PER_MINUTE,
  before: toMs + driveMs,
});
/** A stop's name, short enough to stand in a sentence. */
export const shortLabel = (label: string): string => label.split(/\s+/).slice(0, LABEL_WORDS).join(' ');

function bookingRefusal(proposal: Proposal, moment: Moment, stop: Stop): Refusal[] {
  const span = spanOf(stop, proposal);
  const { fromMs, toMs, driveMs } = span;
  const { after, before } = blockedStarts(span, proposal.minutes);
  if (moment.startMs <= after || moment.startMs >= before) return [];
  const time = (ms: number) => localText(ms, proposal, moment.startDay);
  const overlaps = moment.startMs < toMs && fromMs < moment.endMs;
  const label = shortLabel(stop.label);
  const gap = Math.floor((moment.startMs >= toMs ? moment.startMs - toMs : fromMs - moment.endMs) / MS_PER_MINUTE);
  return [
    {
      code: 'double-booked',
      whose: 'ours',
      text: overlaps
        ? `Already at ${label}, ${time(fromMs)} to ${time(toMs)}.`
        : `${driveMs / MS_PER_MINUTE} minutes to drive to or from ${label}, and only ${gap} between.`,
      overridable: true,
      insteadText: `Clear of it from ${time(toMs + driveMs)}, or give a reason.`,
    },
  ];
}
