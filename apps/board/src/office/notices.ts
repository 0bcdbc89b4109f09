/** Reminders in the order in which they matter, and which of them are news. */
import type { NoticesView } from '@ullage/contracts';
import { countOf } from './count-words.ts';

export type Notice = NoticesView['items'][number];

export interface SortedNotices {
  /** To be acted on, and not ticked off. */
  readonly waiting: readonly Notice[];
  /** To be acted on, ticked off by this person. */
  readonly read: readonly Notice[];
  /** Nobody has to act on them any more. */
  readonly earlier: readonly Notice[];
}
export const sortNotices = (items: readonly Notice[]): SortedNotices => ({
  waiting: items.filter(({ over, read }) => over === null && !read),
  read: items.filter(({ over, read }) => over === null && read),
  earlier: items.filter(({ over }) => over !== null),
});

const OVER_WORDS = {
  discharged: 'done',
  withdrawn: 'no longer asked for',
  suspended: 'suspended',
  'said-later': 'a later reminder says it',
} as const satisfies Record<NonNullable<Notice['over']>, string>;
export const overWords = (over: Notice['over']): string => (over === null ? '' : OVER_WORDS[over]);

/** What waits now and was not there before; nothing at the first look, when nothing is news. */
export function arrivedSince(known: ReadonlySet<string> | undefined, items: readonly Notice[]): readonly Notice[] {
  return known === undefined ? [] : sortNotices(items).waiting.filter(({ id }) => !known.has(id));
}
export function arrivedWords(arrived: readonly Notice[]): string {
  const [first] = arrived;
  return arrived.length === 1 && first ? `Reminder: ${first.text}` : `${countOf(arrived.length, 'new notice')}.`;
}
/** Where the keyboard goes on once these are ticked off: the next that waits, else the one before, else nowhere. */
export function nextWaiting(waiting: readonly Notice[], ticked: readonly string[]): string | undefined {
  const last = waiting.findLastIndex(({ id }) => ticked.includes(id));
  const left = (one: Notice): boolean => !ticked.includes(one.id);
  return (waiting.slice(last + 1).find(left) ?? waiting.slice(0, last + 1).findLast(left))?.id;
}
