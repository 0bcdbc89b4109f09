/** The words for what a schema refuses: the schema's own where it has some, and plain ones that name the field else. */
import { pointerOf, Refusal } from '@ullage/contracts';
import type { FieldFault } from '@ullage/contracts';
import type * as z from 'zod';

type Issue = z.core.$ZodRawIssue;
const FAULTS_MAX = 20;
const POINTER_MAX = 200;

/** `cylinderId` and `['body', 'cylinderEvacuated']` as a person would say them: "Cylinder", "Cylinder evacuated". */
function labelOf(path: readonly PropertyKey[]): string {
  const names = path.filter((part): part is string => typeof part === 'string' && /^[A-Za-z]{1,40}$/.test(part));
  const name = names.at(-1);
  if (name === undefined || name === 'body') return 'Request';
  const words = name
    .replace(/Ids?$/, '')
    .replaceAll(/([A-Z])/g, ' $1')
    .toLowerCase()
    .trim();
  return words === '' ? 'Id' : `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}
const WANTED: Readonly<Record<string, string>> = {
  string: 'give text.',
  number: 'give a number.',
  int: 'give a whole number.',
  boolean: 'say yes or no.',
  array: 'give a list.',
  object: 'is missing or has the wrong form.',
};

const WRONG = 'is missing or has the wrong form.';
const count = (value: number | bigint): string => Number(value).toLocaleString('en-US');
/** What would be right, for the issues that tell. */
const RIGHT: { [C in Issue['code']]?: (issue: Extract<Issue, { code: C }>) => string } = {
  invalid_type: (issue) => WANTED[issue.expected] ?? WRONG,
  invalid_value: () => 'choose one from the list.',
  too_big: (issue) => `too large; give at most ${count(issue.maximum)}.`,
  too_small: (issue) => `too small; give at least ${count(issue.minimum)}.`,
  unrecognized_keys: () => 'has a field that is not known here; leave it out.',
};

/** Words for an issue whose schema has none of its own. */
function wordsFor(issue: Issue): string {
  const right = RIGHT[issue.code] as ((issue: Issue) => string) | undefined;
  return `${labelOf(issue.path ?? [])}: ${right?.(issue) ?? WRONG}`;
}

/** Parses what came from outside. @throws Refusal `not-valid` with a pointer for each field, the first twenty. */
export function parseRequest<T>(schema: z.ZodType<T>, value: unknown, at: readonly PropertyKey[] = []): T {
  const read = schema.safeParse(value, { error: wordsFor });
  if (read.success) return read.data;
  const errors = read.error.issues.slice(0, FAULTS_MAX).map((issue): FieldFault => ({
    pointer: pointerOf([...at, ...issue.path]).slice(0, POINTER_MAX),
    detail: issue.message,
  }));
  throw new Refusal('not-valid', 'The request is not valid: see the fields named.', { errors });
}
