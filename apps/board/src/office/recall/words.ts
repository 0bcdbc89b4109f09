import type { RecallItemView, RecallView } from '@ullage/contracts';

export const GROUPS = [
  { kind: 'cylinder', title: 'Cylinders' },
  { kind: 'circuit', title: 'Circuits' },
  { kind: 'look', title: 'Looks' },
  { kind: 'test', title: 'Duties' },
  { kind: 'weighing', title: 'Weighings' },
] as const satisfies readonly { readonly kind: RecallItemView['kind']; readonly title: string }[];

type Action = RecallItemView['action'];
/** What the one button of a thing says, and what is told once it is done. */
export const ACTION_WORDS: Readonly<Record<Action, { readonly ask: string; readonly done: string }>> = {
  'set-aside': { ask: 'Set aside', done: 'Set aside: it is not to be used until somebody releases it.' },
  'return-visit': { ask: 'Propose a visit', done: 'A visit is proposed; it waits to be placed.' },
  'look-again': { ask: 'Look again', done: 'The look counts no more, and a visit is proposed.' },
  'test-again': { ask: 'Test again', done: 'The test counts no more; what it discharged is open again.' },
  nothing: { ask: 'Nothing to do', done: 'Kept with its reason.' },
};
export const SETTLED_WORDS: Readonly<Record<NonNullable<RecallItemView['settled']>['how'], string>> = {
  'set-aside': 'Set aside',
  'return-visit': 'Visit proposed',
  'look-again': 'To be looked at again',
  'test-again': 'To be tested again',
  nothing: 'Nothing to do',
  'put-right': 'Weights put right',
  checked: 'Found good by an air check',
  weighed: 'Weighed again',
};

/** What a recall is about, after its name. */
export const KIND_WORDS: Readonly<Record<RecallView['kind'], string>> = {
  gas: 'its gas',
  instrument: 'what it was used for',
  tare: 'what was weighed under its tare',
};
export const NOTHING_WORDS: Readonly<Record<RecallView['kind'], string>> = {
  gas: 'Its gas has gone nowhere.',
  instrument: 'Nothing was done with it in that time.',
  tare: 'Nothing was weighed under the old tare.',
};
