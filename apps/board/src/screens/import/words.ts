import type { ImportView } from '@ullage/contracts';
import type { Mark } from '../../ui/marks.tsx';

type Row = keyof Omit<ImportView['counts'], 'rows'>;

export const KIND_WORDS: Readonly<Record<ImportView['kind'], string>> = {
  equipment: 'Customers, units and circuits',
  additions: 'Past additions',
  cylinders: 'Cylinders',
  people: 'People with certificates',
};

export const WHAT_WORDS: Readonly<Record<ImportView['asks'][number]['what'], string>> = {
  customer: 'Customer',
  site: 'Site',
  unit: 'Unit',
  cylinder: 'Cylinder',
  person: 'Person',
};

export const STATE_WORDS: Readonly<Record<ImportView['state'], string>> = {
  reading: 'Being read',
  unreadable: 'Could not be read',
  read: 'Columns to match',
  checking: 'Being checked',
  checked: 'Checked, nothing entered yet',
  running: 'Being entered',
  done: 'Entered',
  undoing: 'Being taken back',
  undone: 'Taken back',
};

/** Each with a shape of its own beside its word. */
export const ROW_WORDS: Readonly<Record<Row | 'unread', readonly [Mark, string]>> = {
  unread: ['offer', 'Not checked'],
  wrong: ['refused', 'Not right yet'],
  decide: ['unsure', 'To decide'],
  skipped: ['declined', 'Left out'],
  known: ['clear', 'Known already'],
  fine: ['planned', 'Would be entered'],
  done: ['done', 'Entered'],
  failed: ['late', 'Refused'],
  undone: ['declined', 'Taken back'],
  kept: ['hold', 'Kept'],
};

/** In the order a person looks at them: what wants something from them first. */
export const ROW_ORDER: readonly Row[] = [
  'wrong',
  'decide',
  'failed',
  'kept',
  'fine',
  'known',
  'skipped',
  'done',
  'undone',
];

export const figure = (count: number): string => count.toLocaleString('en-US');
/** `1 row`, `1,240 rows`. */
export const rowsOf = (count: number): string => `${figure(count)} ${count === 1 ? 'row' : 'rows'}`;

/** What the check found, in a sentence. */
export function foundOf({ fine, wrong, decide, known }: ImportView['counts']): string {
  const more = [
    [wrong, 'is not right yet', 'are not right yet'],
    [decide, 'waits for an answer', 'wait for an answer'],
    [known, 'is known already', 'are known already'],
  ] as const;
  const parts = more.flatMap(([count, one, many]) =>
    count === 0 ? [] : [`${rowsOf(count)} ${count === 1 ? one : many}`],
  );
  return `${[`${fine === 0 ? 'No row' : rowsOf(fine)} would be entered`, ...parts].join(', ')}.`;
}

export interface Progress {
  readonly done: number;
  readonly of: number;
  readonly text: string;
}
/** How far an import has come that is being carried out or taken back; undefined when it is neither. */
export function progressOf({ state, counts }: Pick<ImportView, 'state' | 'counts'>): Progress | undefined {
  const { done, failed, fine, undone, kept } = counts;
  if (state === 'running') {
    const of = done + failed + fine;
    return { done: done + failed, of, text: `${figure(done + failed)} of ${rowsOf(of)} entered` };
  }
  if (state === 'undoing') {
    const of = done + undone + kept;
    return { done: undone + kept, of, text: `${figure(undone + kept)} of ${rowsOf(of)} taken back` };
  }
  return undefined;
}

/** One of two lists shows first: what is wrong, where something is. */
export const firstShown = (counts: ImportView['counts']): Row | 'all' =>
  ROW_ORDER.find((state) => (state === 'wrong' || state === 'failed' || state === 'kept') && counts[state] > 0) ??
  'all';
