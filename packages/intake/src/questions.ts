export interface Named {
  readonly id: string;
  readonly name: string;
}
export const ASKED_ABOUT = ['customer', 'site', 'unit', 'cylinder', 'person'] as const;
/** A name that is nearly another's: a person says whether it is the same. */
export interface Question {
  /** The same question of the same file bears the same key. */
  readonly key: string;
  readonly what: (typeof ASKED_ABOUT)[number];
  readonly name: string;
  readonly likes: readonly Named[];
}
/** `same` as the one of that id; something new; or left out with all that stands on it. */
export type Decision =
  { readonly how: 'same'; readonly id: string } | { readonly how: 'new' } | { readonly how: 'skip' };
