import type { ParcelView } from '@ullage/contracts';

const UNITS = ['B', 'kB', 'MB', 'GB'] as const;
/** As files are told of everywhere: thousands, one decimal below ten. */
export function sizeWords(bytes: number): string {
  let value = bytes;
  let unit = 0;
  while (value >= 1000 && unit < UNITS.length - 1) {
    value /= 1000;
    unit += 1;
  }
  return `${value < 10 && unit > 0 ? value.toFixed(1) : Math.round(value)} ${UNITS[unit] ?? ''}`;
}

const STEPS: Readonly<Record<string, string>> = {
  tables: 'Writing the tables',
  people: 'Writing the people',
  photos: 'Photos',
  history: 'Everything that happened',
  books: 'The books',
  check: 'Looking through the file',
  compare: 'Comparing the books',
};
/** What is being done, for whoever waits. */
export const stepWords = ({ state, step }: Pick<ParcelView, 'state' | 'step'>): string =>
  state === 'waiting' ? 'Waits for its turn' : (STEPS[step ?? ''] ?? 'Begins');

export const isUnderWay = (parcel: ParcelView | null): boolean =>
  parcel !== null && (parcel.state === 'waiting' || parcel.state === 'working');
