/** The mail beside a reminder's notice: what the law asks, until when at the site, by which clause, and of whom. */
import type { Day } from '@ullage/units';
import { write } from './letter.ts';
import type { MailText } from './letter.ts';

export interface Reminder {
  readonly contractor: string;
  /** Unit and circuit, as on the board: `0417-A`. */
  readonly circuit: string;
  readonly customer: string;
  readonly site: string;
  readonly address: string;
  /** What is to be done: `Follow-up verification test`. */
  readonly duty: string;
  readonly rulebook: string;
  readonly clause: string;
  /** Why it is due then, in a sentence of the rulebook. */
  readonly why: string;
  /** The rulebook's code: `owner-or-operator`. */
  readonly responsible: string;
  /** The last legal day by the calendar at the site. */
  readonly dueOn: Day;
  /** Whole days from today to the last legal day; below zero once it is over. */
  readonly daysLeft: number;
  readonly timeZone: string;
  /** The date still hangs on something that nobody has stated. */
  readonly provisional: boolean;
  readonly url: string;
}

const format = new Intl.DateTimeFormat('en-US', {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  year: 'numeric',
  timeZone: 'UTC',
});
/** `Sunday 10 May 2026`. */
export function longDay(day: Day): string {
  const parts = new Map(format.formatToParts(new Date(`${day}T12:00:00Z`)).map(({ type, value }) => [type, value]));
  return (['weekday', 'day', 'month', 'year'] as const).map((type) => parts.get(type) ?? '').join(' ');
}

/** Counted when the mail is made, not when it was planned: one that waited for its server must not say yesterday's days. */
function timeLeft(daysLeft: number): string {
  if (daysLeft < 0) return 'The last legal day is over';
  if (daysLeft === 0) return 'Today is the last legal day';
  return daysLeft === 1 ? 'Tomorrow is the last legal day' : `${daysLeft} days are left`;
}

export function reminderMail(reminder: Reminder): MailText {
  const { circuit, duty, daysLeft, timeZone, clause, rulebook, responsible } = reminder;
  const day = longDay(reminder.dueOn);
  return write({
    subject: `${circuit}: ${duty}, ${daysLeft < 0 ? 'was due' : 'due'} ${day}`,
    before: [`${timeLeft(daysLeft)}: ${duty} of ${circuit} ${daysLeft < 0 ? 'was' : 'is'} due on ${day}.`],
    facts: [
      ['Site', `${reminder.site}, ${reminder.address}`],
      ['Customer', reminder.customer],
      ['Due', `${day}, until midnight at the site (${timeZone})${reminder.provisional ? '; provisional' : ''}`],
      ['Clause', `${clause} (${rulebook})`],
      ['Responsible', responsible.replaceAll('-', ' ')],
      ['Why', reminder.why],
    ],
    link: { words: 'Open the unit', url: reminder.url },
    after: [
      `Sent to you as one of those who plan for ${reminder.contractor}. The notice on the board says the same.`,
      'Worked out from what is recorded. It is not legal advice.',
    ],
  });
}
