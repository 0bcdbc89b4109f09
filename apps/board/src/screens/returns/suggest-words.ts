/** From a suggestion to the placing form, and to the words of its card. */
import type { OfferView, SuggestionsView } from '@ullage/contracts';
import { dayName } from '../../lib/local-time.ts';
import { spanWords } from '../../pictures/slack-axis.ts';
import { clockFrom, type PlaceForm } from './place-command.ts';

export const keyOf = ({ startsAt, personId }: OfferView): string => `${startsAt} ${personId}`;

/** What an offer puts in the form. It is for one person, who may go alone. */
export const formOfOffer = ({ day, time, which, personId }: OfferView): Partial<PlaceForm> => ({
  day,
  time,
  which: which ?? '',
  personId,
  withPersonId: '',
});

/** The offer that stands in the form; none when something else was typed. */
export const offerInForm = (offers: readonly OfferView[], form: PlaceForm): OfferView | undefined =>
  offers.find(
    (offer) =>
      offer.personId === form.personId &&
      offer.day === form.day &&
      offer.time === clockFrom(form.time) &&
      (offer.which === null || offer.which === form.which),
  );

/** The two figures an offer is weighed by: `5 d 13 h slack, 18 min more driving`. */
export function figuresOf({ slackMinutes, driveMinutes, warnings }: OfferView): string {
  const drive = driveMinutes === 0 ? 'no more driving' : `${driveMinutes} min more driving`;
  if (slackMinutes === null) return drive;
  if (warnings.some(({ code }) => code === 'already-late')) return `late, ${drive}`;
  return `${slackMinutes < 0 ? 'no slack' : `${spanWords(slackMinutes / 60)} slack`}, ${drive}`;
}

/** Names as a sentence lists them: `Ada Lee, Kim Ross and 3 more`. */
export function namesInWords(names: readonly string[], shown = 2): string {
  if (names.length > shown + 1) return `${names.slice(0, shown).join(', ')} and ${names.length - shown} more`;
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** Why there is nothing to choose from. */
export function noneInWords({ fromDay, toDay, barred }: SuggestionsView, people: number): string {
  if (people === 0) return 'There is nobody to send yet.';
  if (barred.length === people) return 'Nobody may go alone.';
  const days = fromDay === toDay ? `on ${dayName(fromDay)}` : `from ${dayName(fromDay)} to ${dayName(toDay)}`;
  return `No moment ${days} keeps every rule.`;
}
