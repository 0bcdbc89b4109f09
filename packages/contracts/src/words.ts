/**
 * Words for what a schema refuses without words of its own. A person reads the field's name and what would be right, and
 * never the language of schemas.
 */
import type * as z from 'zod';

type Issue = z.core.$ZodRawIssue;

/** `cylinderId` and `['body', 'cylinderEvacuated']` as a person would say them: "Cylinder", "Cylinder evacuated". */
export function labelOf(path: readonly PropertyKey[]): string {
  const names = path.filter((part): part is string => typeof part === 'string' && /^[A-Za-z]{1,40}$/.test(part));
  const own = names.at(-1) === 'id' ? names.at(-2) : names.at(-1);
  if (own === undefined || own === 'body') return 'Request';
  const words = own
    .replace(/Ids?$/, '')
    .replaceAll(/([A-Z])/g, ' $1')
    .toLowerCase()
    .trim();
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

const WRONG = 'is missing or has the wrong form.';
const WANTED: Readonly<Record<string, string>> = {
  string: 'give text.',
  number: 'give a number.',
  int: 'give a whole number.',
  boolean: 'say yes or no.',
  array: 'give a list.',
};
const numeral = (value: number | bigint): string => Number(value).toLocaleString('en-US');
const counted = (origin: string): string => ({ string: ' characters', array: ' entries' })[origin] ?? '';

/** What would be right, for the issues that tell. */
const RIGHT: { readonly [Code in Issue['code']]?: (issue: Extract<Issue, { code: Code }>) => string } = {
  invalid_type: (issue) => WANTED[issue.expected] ?? WRONG,
  invalid_value: () => 'choose one from the list.',
  invalid_format: (issue) => (issue.format === 'uuid' ? 'choose one that is known here.' : WRONG),
  too_big: (issue) => `give at most ${numeral(issue.maximum)}${counted(issue.origin)}.`,
  too_small: (issue) =>
    issue.inclusive === false
      ? `give more than ${numeral(issue.minimum)}${counted(issue.origin)}.`
      : `give at least ${numeral(issue.minimum)}${counted(issue.origin)}.`,
  unrecognized_keys: () => 'has a field that is not known here; leave it out.',
};

/** An error map for `schema.safeParse(value, { error: plainWords })`; what a schema says itself goes first. */
export function plainWords(issue: Issue): string {
  const right = RIGHT[issue.code] as ((issue: Issue) => string) | undefined;
  return `${labelOf(issue.path ?? [])}: ${right?.(issue) ?? WRONG}`;
}
