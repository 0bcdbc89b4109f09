/** The firm's own rules: common practice, and to be bent where practice must, with a reason that is kept. */
import { localText } from './proposal.ts';
import type { Moment, Proposal, Refusal, Stop } from './proposal.ts';
import { travelMinutes } from './travel.ts';

const MS_PER_MINUTE = 60_000;
const LABEL_WORDS = 4;
export const WORKING_DAY = { from: '07:00', to: '17:00' } as const;

/** Ours, yet not overridable: no reason sends anybody back in time. What was done then is reported, not planned. */
export function pastRefusals({ now, calendar }: Proposal, moment: Moment): Refusal[] {
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
export function workingDayRefusals(proposal: Proposal, moment: Moment): Refusal[] {
  const { calendar, zone } = proposal;
  const { from, to } = proposal.workingDay ?? WORKING_DAY;
  const starts = calendar.timeOf(proposal.startsAt, zone);
  const clock = calendar.timeOf(calendar.fromEpochMs(moment.endMs), zone);
  const ends = clock === '00:00' ? '24:00' : clock;
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

function bookingRefusal(proposal: Proposal, moment: Moment, stop: Stop): Refusal[] {
  const fromMs = proposal.calendar.epochMs(stop.startsAt);
  const toMs = fromMs + stop.minutes * MS_PER_MINUTE;
  const driveMs = travelMinutes(stop.place, proposal.visit.place) * MS_PER_MINUTE;
  if (moment.startMs >= toMs + driveMs || moment.endMs + driveMs <= fromMs) return [];
  const time = (ms: number) => localText(ms, proposal, moment.startDay);
  const overlaps = moment.startMs < toMs && fromMs < moment.endMs;
  const label = stop.label.split(/\s+/).slice(0, LABEL_WORDS).join(' ');
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
