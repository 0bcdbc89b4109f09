import type { DutyView } from '@ullage/contracts';
import type { Mark } from '../ui/marks.tsx';
import { dayCount, daysBetween } from './when.ts';

export interface DutyLeft {
  readonly mark: Extract<Mark, 'late' | 'soon' | 'fine' | 'done' | 'hold' | 'unsure' | 'refused'>;
  /** The state in a word or two. */
  readonly word: string;
  /** What is left, or what happened: said after the word; empty when the word is enough. */
  readonly left: string;
}
/** Ten days or less is soon: the shortest window the US books give (40 CFR 84.106(e)(2), 82.157(e)). */
const SOON_DAYS = 10;

function openLeft(dueOn: string | null, today: string): DutyLeft {
  if (dueOn === null) return { mark: 'unsure', word: 'No date yet', left: 'it depends on what is still to happen' };
  const days = daysBetween(today, dueOn);
  if (days < 0) return { mark: 'late', word: 'Overdue', left: `by ${dayCount(-days)}` };
  const left = days === 0 ? 'today is the last day' : `${dayCount(days)} left`;
  return days <= SOON_DAYS ? { mark: 'soon', word: 'Due soon', left } : { mark: 'fine', word: 'In time', left };
}

/** How a duty stands on a day at its site. "Missed" is never stored: it depends on today. */
export function dutyLeft({ state, dueOn }: Pick<DutyView, 'state' | 'dueOn'>, today: string): DutyLeft {
  switch (state) {
    case 'open':
      return openLeft(dueOn, today);
    case 'discharged':
      return { mark: 'done', word: 'Done', left: '' };
    case 'discharged-late':
      return { mark: 'done', word: 'Done late', left: '' };
    case 'withdrawn':
      return { mark: 'refused', word: 'Withdrawn', left: 'the facts no longer ask for it' };
    case 'suspended':
      return { mark: 'hold', word: 'On hold', left: '' };
    case 'not-yet-known':
      return { mark: 'unsure', word: 'No date yet', left: 'it depends on what is still to happen' };
  }
}

/** Who answers for a duty, in words. */
export const responsibleWords = (code: string): string =>
  code === 'owner-or-operator' ? 'owner or operator' : code.replaceAll('-', ' ');

/** What a duty's or calculation's flag means; a flag without words yet is shown as it is called. */
const FLAGS: Readonly<Record<string, string>> = {
  'not-settled': 'Not settled in law',
  'recovered-mass-unknown': 'A recovered mass is not known: the rate may be lower',
  'mass-partly-unknown': 'An added mass is not known: the rate may be higher',
  'seasonal-excess': 'More went in for the season than was taken out before it',
};
export const flagWords = (flag: string): string => FLAGS[flag] ?? flag.replaceAll('-', ' ');
