import type { CommandAnswer, Problem, ProblemCode, Refusal } from '@ullage/contracts';

/** Code to HTTP status and title: the one place where they meet. A new code without a status does not compile. */
export const PROBLEMS = {
  'not-valid': { status: 400, title: 'Something is not right yet' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'not-allowed': { status: 403, title: 'Not yours to do' },
  'not-found': { status: 404, title: 'Not here' },
  'key-missing': { status: 400, title: 'A key is missing' },
  'command-changed': { status: 409, title: 'Same id, other content' },
  stale: { status: 409, title: 'Somebody was first' },
  taken: { status: 409, title: 'Taken already' },
  'still-waiting': { status: 409, title: 'Waits for something that has not come' },
  'rule-forbids': { status: 422, title: 'A rule forbids it' },
  'not-possible': { status: 422, title: 'That cannot be' },
  'stopped-before-act': { status: 422, title: 'Stop before you do it' },
  'too-large': { status: 413, title: 'Too large' },
  'too-many': { status: 429, title: 'Too many requests' },
  'not-text': { status: 400, title: 'Not readable text' },
  unavailable: { status: 503, title: 'Not available now' },
  internal: { status: 500, title: 'Something broke here' },
} as const satisfies Record<ProblemCode, { status: number; title: string }>;

/** The problem document of a refusal. */
export const problemOf = (refusal: Refusal): Problem => ({
  type: `/problems/${refusal.code}`,
  ...PROBLEMS[refusal.code],
  detail: refusal.message,
  ...(refusal.errors.length > 0 ? { errors: [...refusal.errors] } : {}),
  ...(refusal.rules.length === 0 ? {} : { rules: [...refusal.rules] }),
});

/** What the sender of a command that lies with a person is told. */
export const needsAttention = (id: string, problem: Problem): CommandAnswer => ({
  id,
  outcome: 'needs-attention',
  records: [],
  asks: [],
  problem,
});

/** The problem in an answer that is kept. */
export const problemIn = (answer: unknown): Problem | undefined => (answer as CommandAnswer | null)?.problem;

/** What a command is answered that was answered before. */
export const answerAgain = (answer: CommandAnswer): CommandAnswer =>
  answer.outcome === 'applied' ? { ...answer, outcome: 'already-applied' } : answer;
