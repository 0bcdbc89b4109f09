/** What a check found: whether all is well, and the words for a person. */
export interface Outcome {
  readonly ok: boolean;
  readonly words: string;
}
