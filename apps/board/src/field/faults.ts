/** From a problem document's pointers to the fields of a form. */
import type { FieldFault, Problem } from '@ullage/contracts';

/** `#/work/removes` as `work.removes`; takes a pointer with or without the hash (RFC 6901 section 6). */
export const pathOf = (pointer: string): string =>
  pointer
    .replace(/^#?\/?/, '')
    .split('/')
    .map((part) => part.replaceAll('~1', '/').replaceAll('~0', '~'))
    .filter((part) => part !== '')
    .join('.')
    // A device sends its fields inside `body`; the fields of the form are those.
    .replace(/^body\./, '');

const within = (path: string, name: string): boolean => path === name || path.startsWith(`${name}.`);

/** What is wrong with a field: `before` has the fault of `/before/value` too. */
export const faultOf = (errors: readonly FieldFault[], name: string): string | undefined =>
  errors.find((fault) => within(pathOf(fault.pointer), name))?.detail;

/** `readings.0.vacuum.value`, `readings.0.vacuum`, `readings.0`, `readings`: where to put the focus, best first. */
export function pathsToTry(pointer: string): readonly string[] {
  const parts = pathOf(pointer).split('.');
  return parts.map((_, i) => parts.slice(0, parts.length - i).join('.')).filter((path) => path !== '');
}

/** Whether the refusal came before the act, so that nothing has happened yet. */
export const isStop = (problem: Problem): boolean => problem.type.endsWith('/stopped-before-act');

/** Where the focus goes after a refusal: to the field at fault, but to the refusal itself when the act must not be done. */
export function focusAfter(problem: Problem): readonly string[] {
  const [first] = problem.errors ?? [];
  const toStop = isStop(problem) || (problem.rules ?? []).length > 0;
  return first === undefined || toStop ? ['problem'] : [...pathsToTry(first.pointer), 'problem'];
}

/** A refusal found on the phone, before anything was sent. */
export const localProblem = (errors: readonly FieldFault[]): Problem => ({
  type: '/problems/not-valid',
  title: errors.length === 1 ? 'One field needs you' : `${errors.length} fields need you`,
  status: 422,
  errors: [...errors],
});
