import type { SAID_DOUBTS } from '@ullage/contracts';

type Said = (typeof SAID_DOUBTS)[number];
/** What may be wrong with gas that was moved, as whoever moved it would say it. */
export const SAID_DOUBT_CHOICES: readonly { readonly value: Said; readonly text: string }[] = [
  { value: 'hoses-not-purged', text: 'Hoses were not purged' },
  { value: 'nitrogen-present', text: 'Nitrogen was in it' },
  { value: 'burn-out', text: 'Burn-out: acid in it' },
  { value: 'identity-unsure', text: 'Not sure which gas it is' },
];
/** Those of the list that were chosen, in its order. */
export const saidDoubts = (chosen: readonly string[]): Said[] =>
  SAID_DOUBT_CHOICES.flatMap(({ value }) => (chosen.includes(value) ? [value] : []));
