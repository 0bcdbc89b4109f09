/** The words of a manifest. */
import type { ManifestLine, ManifestListView } from '@ullage/contracts';

export const PURPOSE_WORDS = { reclaim: 'Reclaim', destroy: 'Destruction' } as const;
export const FOUND_WORDS = {
  'as-sent': 'as sent',
  mixed: 'mixed',
  contaminated: 'contaminated',
  'other-gas': 'another gas',
} as const;
export const AFTER_WORDS = {
  evacuated: 'given back evacuated',
  'not-evacuated': 'given back, not evacuated',
  kept: 'kept or replaced by the receiver',
} as const;

type Item = ManifestListView['items'][number];
/** How a manifest stands, in a word or two. */
export function manifestState({ cylinders, accepted, takenBack }: Item): {
  mark: 'fine' | 'half' | 'refused';
  text: string;
} {
  if (takenBack) return { mark: 'refused', text: 'Taken back' };
  if (accepted === cylinders) return { mark: 'fine', text: 'Accepted' };
  return { mark: 'half', text: accepted === 0 ? 'On its way' : `${accepted} of ${cylinders} accepted` };
}

/** What was in it by the books: `R-410A 9,000 g, R-22 50 g`. */
export const bookedWords = (booked: ManifestLine['booked']): string =>
  booked.length === 0
    ? 'nothing'
    : booked.map(({ refrigerant, grams }) => `${refrigerant} ${grams.toLocaleString('en-US')} g`).join(', ');
