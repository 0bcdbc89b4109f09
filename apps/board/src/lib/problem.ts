/** What went wrong with one field; `pointer` is a JSON pointer into the body that was sent (RFC 6901). */
export interface FieldProblem {
  readonly pointer: string;
  readonly detail: string;
}

/** A rule behind a refusal: whose it is decides whether it may bend. */
export interface ProblemRule {
  readonly whose: 'law' | 'ours';
  readonly clause: string;
  readonly overridable: boolean;
  readonly code: string;
  /** Why it refuses. */
  readonly text: string;
  readonly instead: string;
}

/** An RFC 9457 problem as the screens show it. Extension members stay readable under `more`. */
export interface Problem {
  readonly status: number;
  readonly type: string;
  readonly title: string;
  readonly detail: string;
  readonly errors: readonly FieldProblem[];
  /** Every rule that stands against it; empty where none does. */
  readonly rules: readonly ProblemRule[];
  readonly more: Readonly<Record<string, unknown>>;
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');
const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function fieldProblems(value: unknown): FieldProblem[] {
  if (!Array.isArray(value)) return [];
  return value
    .filter(isRecord)
    .map((entry) => ({ pointer: text(entry['pointer']), detail: text(entry['detail']) || text(entry['message']) }))
    .filter((entry) => entry.detail !== '');
}

function rulesOf(value: unknown): ProblemRule[] {
  if (!Array.isArray(value)) return [];
  return value.filter(isRecord).flatMap((rule) => {
    const { whose } = rule;
    if (whose !== 'law' && whose !== 'ours') return [];
    return [
      {
        whose,
        clause: text(rule['clause']),
        // The law never bends, whatever an answer says.
        overridable: whose === 'ours' && rule['overridable'] === true,
        code: text(rule['code']),
        text: text(rule['text']),
        instead: text(rule['instead']),
      },
    ];
  });
}

/** What to say when an answer carries no words of its own. */
function titleOf(status: number): string {
  if (status === 0) return 'No connection';
  if (status === 401) return 'You are signed out';
  if (status === 403) return 'Your role may not do this';
  if (status === 404) return 'This is not here';
  if (status === 409) return 'Somebody was faster';
  if (status === 429) return 'Too many tries';
  return status >= 500 ? 'The server could not do this' : 'This was refused';
}

/** A problem from any answer: a problem document, other JSON, or nothing readable at all. */
export function parseProblem(status: number, body: unknown): Problem {
  const found = isRecord(body) ? body : {};
  const { type, title, status: _status, detail, errors, rules, ...more } = found;
  return {
    status,
    type: text(type) || 'about:blank',
    title: text(title) || titleOf(status),
    detail: text(detail) || text(found['message']),
    errors: fieldProblems(errors),
    rules: rulesOf(rules),
    more,
  };
}

/** The problem of a call that never reached the server. */
export const offlineProblem = (): Problem =>
  parseProblem(0, { title: 'No connection', detail: 'Nothing was lost. Try again when there is a signal.' });

/** The last part of a pointer chain as a form's field name: `/site/elevationM` is `site.elevationM`. */
export const fieldName = (pointer: string): string =>
  pointer
    .replace(/^#?\//, '')
    .split('/')
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'))
    .join('.');

/** Field name to message, the first one winning: what a form puts under its fields. */
export function errorsByField(problem: Problem | undefined): Readonly<Record<string, string>> {
  const byField: Record<string, string> = {};
  for (const { pointer, detail } of problem?.errors ?? []) byField[fieldName(pointer)] ??= detail;
  return byField;
}
