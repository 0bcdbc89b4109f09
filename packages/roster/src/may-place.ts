import { dayWords } from '@ullage/units';
import { certificateRefusals, isPastSaving, windowOf, windowRefusals } from './law-rules.ts';
import { bookingRefusals, pastRefusals, WORKING_DAY, workingDayRefusals } from './own-rules.ts';
import { momentOf } from './proposal.ts';
import type { Moment, Proposal, Refusal, Warning } from './proposal.ts';
import { slackOf } from './slack.ts';
import type { LawfulWindow } from './window.ts';

interface Judged {
  /** Minutes from the end of work to the legal edge less the reserve; null when no duty binds the visit. */
  readonly slackMinutes: number | null;
  readonly warnings: readonly Warning[];
}
export type PlacingAnswer =
  | (Judged & { readonly ok: true })
  /** Law first, then ours; never empty. */
  | (Judged & { readonly ok: false; readonly refusals: readonly Refusal[] });

/**
 * Whether a visit may stand on a person's day at a moment, with every rule against it. Who comes along is judged by a call
 * of their own. An override is the caller's: it may set aside what is `overridable`, with a reason that is kept.
 * @throws RangeError when `minutes` is not a whole number above zero
 */
export function mayPlace(proposal: Proposal): PlacingAnswer {
  if (!Number.isSafeInteger(proposal.minutes) || proposal.minutes <= 0)
    throw new RangeError(`${proposal.minutes} is no length of a visit in minutes`);
  const moment = momentOf(proposal);
  const window = windowOf(proposal);
  const refusals = [
    ...certificateRefusals(proposal, moment),
    ...windowRefusals(proposal, moment, window),
    ...pastRefusals(proposal, moment),
    ...bookingRefusals(proposal, moment),
    ...workingDayRefusals(proposal, moment),
  ];
  const judged = { slackMinutes: offerSlack(proposal, window), warnings: warningsOf(proposal, moment, window) };
  return refusals.length === 0 ? { ok: true, ...judged } : { ok: false, refusals, ...judged };
}

function offerSlack({ startsAt, minutes, calendar }: Proposal, window: LawfulWindow | undefined): number | null {
  if (window === undefined) return null;
  return slackOf({ dueAt: window.dueAt, now: startsAt, driveMinutes: 0, workMinutes: minutes }, calendar);
}

function warningsOf(proposal: Proposal, moment: Moment, window: LawfulWindow | undefined): Warning[] {
  if (window === undefined) return [];
  if (isPastSaving(window, proposal, proposal.calendar) && moment.endMs > proposal.calendar.epochMs(window.dueAt))
    return [{ code: 'already-late', text: `In time was until ${dayWords(window.lastDay)}: the sooner the better.` }];
  if (!window.fits)
    return [{ code: 'windows-apart', text: 'The windows of its duties do not meet: this takes two visits.' }];
  if (moment.startDay !== window.lastDay || !hasEarlierDay(proposal, window)) return [];
  return [
    { code: 'last-legal-day', text: `${dayWords(window.lastDay)} is the last legal day, and an earlier day is left.` },
  ];
}

/** Whether the working hours of a day before the last one can still take the work; other stops are not looked at. */
function hasEarlierDay({ calendar, now, minutes, zone, workingDay }: Proposal, window: LawfulWindow): boolean {
  const opens = window.opensAt ?? now;
  const earliest = calendar.epochMs(opens) > calendar.epochMs(now) ? opens : now;
  const day = calendar.dayOf(earliest, zone);
  if (calendar.addDays(day, 1) < window.lastDay) return true;
  if (day >= window.lastDay) return false;
  const { from, to } = workingDay ?? WORKING_DAY;
  const clock = calendar.timeOf(earliest, zone);
  return minutesOf(clock > from ? clock : from) + minutes <= minutesOf(to);
}

const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5));
