/** Problem documents (RFC 9457). One list of codes; the api holds the one map to a status. */
import * as z from 'zod';

export const PROBLEM_CODES = [
  'not-valid',
  'not-signed-in',
  'not-allowed',
  'not-found',
  'key-missing',
  'command-changed',
  'stale',
  'taken',
  'still-waiting',
  'rule-forbids',
  'not-possible',
  'stopped-before-act',
  'too-large',
  'too-many',
  'not-text',
  'unavailable',
  'internal',
] as const;
export type ProblemCode = (typeof PROBLEM_CODES)[number];

/** One thing that is wrong: where (JSON Pointer, RFC 6901), and what would be right, in at most twenty words. */
export const FieldFault = z.object({ pointer: z.string(), detail: z.string() }).meta({ id: 'FieldFault' });
export type FieldFault = z.infer<typeof FieldFault>;

export const BrokenRule = z
  .object({
    whose: z.enum(['law', 'ours']),
    clause: z.string().optional(),
    overridable: z.boolean(),
    code: z.string(),
    text: z.string().meta({ description: 'Why it refuses.' }),
    instead: z.string().optional(),
  })
  .meta({ id: 'BrokenRule', description: 'A rule that refuses, whose it is, and what would work instead.' });
export type BrokenRule = z.infer<typeof BrokenRule>;

export const Problem = z
  .object({
    type: z.string().meta({ description: '/problems/<code>' }),
    title: z.string(),
    status: z.int(),
    detail: z.string().optional(),
    errors: z.array(FieldFault).optional(),
    rules: z
      .array(BrokenRule)
      .optional()
      .meta({ description: 'Every rule that stands against it, each once; what cannot be overridden comes first.' }),
  })
  .meta({ id: 'Problem' });
export type Problem = z.infer<typeof Problem>;

/** What casework throws when an act is refused; the api turns it into a problem document, sync into an attention item. */
export class Refusal extends Error {
  readonly code: ProblemCode;
  readonly errors: readonly FieldFault[];
  readonly rules: readonly BrokenRule[];
  constructor(
    code: ProblemCode,
    detail: string,
    more: { errors?: readonly FieldFault[]; rules?: readonly BrokenRule[] } = {},
  ) {
    super(detail);
    this.name = 'Refusal';
    this.code = code;
    this.errors = more.errors ?? [];
    this.rules = more.rules ?? [];
  }
}

const escape = (part: PropertyKey): string => String(part).replaceAll('~', '~0').replaceAll('/', '~1');
/** RFC 6901 pointer of a zod path. */
export const pointerOf = (path: readonly PropertyKey[]): string =>
  `#${path.map((part) => `/${escape(part)}`).join('')}`;
/** The faults of a failed parse, each with pointer and words. */
export const faultsOf = (error: z.ZodError): FieldFault[] =>
  error.issues.map((issue) => ({ pointer: pointerOf(issue.path), detail: issue.message }));
