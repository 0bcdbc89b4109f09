/** Every refusal leaves as one problem document (RFC 9457); casework says which code has which status. */
import { PROBLEMS } from '@ullage/casework';
import type { Problem, ProblemCode } from '@ullage/contracts';
import type { Refusal } from '@ullage/contracts';

/** The document for a code. A 404 is the same bytes whatever was asked for: it has no detail. */
export function problemOf(code: ProblemCode, detail?: string): Problem {
  const head = { type: `/problems/${code}`, title: PROBLEMS[code].title, status: PROBLEMS[code].status };
  return detail === undefined || detail === '' || code === 'not-found' ? head : { ...head, detail };
}

/** A problem document that is complete already. */
export class ProblemThrown extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.title);
    this.name = 'ProblemThrown';
    this.problem = problem;
  }
}

export function problemOfRefusal(refusal: Refusal): Problem {
  const problem = problemOf(refusal.code, refusal.message);
  if (refusal.code === 'not-found') return problem;
  return {
    ...problem,
    ...(refusal.errors.length === 0 ? {} : { errors: [...refusal.errors] }),
    ...(refusal.rules.length === 0 ? {} : { rules: [...refusal.rules] }),
  };
}

/** What the framework throws by itself, by status: its own words name internals and are left behind. */
const OF_FRAMEWORK: Readonly<Record<number, { code: ProblemCode; detail: string }>> = {
  400: { code: 'not-valid', detail: 'The request cannot be read: send one JSON object.' },
  401: { code: 'not-signed-in', detail: 'Sign in first.' },
  403: { code: 'not-allowed', detail: 'Your role does not allow this.' },
  404: { code: 'not-found', detail: '' },
  405: { code: 'not-found', detail: '' },
  413: { code: 'too-large', detail: 'The request is too large: send at most 1 MB.' },
  414: { code: 'too-large', detail: 'The address is too long.' },
  415: { code: 'not-valid', detail: 'Send JSON, with content-type application/json.' },
  429: { code: 'too-many', detail: 'Too many requests: wait a minute.' },
  431: { code: 'too-large', detail: 'The headers are too large.' },
  503: { code: 'unavailable', detail: 'Try again in a moment.' },
};
export function problemOfStatus(status: number): Problem {
  const known = OF_FRAMEWORK[status];
  if (known !== undefined) return { ...problemOf(known.code, known.detail), status };
  return status >= 400 && status < 500
    ? { ...problemOf('not-valid', 'The request cannot be read.'), status }
    : problemOf('internal');
}
