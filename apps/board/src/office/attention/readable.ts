/** A kept command as lines a person can read. */
export interface Line {
  readonly term: string;
  readonly value: string;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const ID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** `leakPointIds` as `leak point ids`. */
export const keyWords = (key: string): string =>
  key
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('-', ' ')
    .toLowerCase();
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function leaf(value: unknown): string | undefined {
  if (value === null) return 'not known';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string' || typeof value === 'number') return String(value);
  if (Array.isArray(value)) {
    const parts = value.map(leaf);
    return parts.every((part) => part !== undefined) ? parts.join(', ') : undefined;
  }
  if (isRecord(value) && typeof value['value'] === 'string' && typeof value['unit'] === 'string')
    return value['unit'] === 'lb-oz' ? value['value'] : `${value['value']} ${value['unit']}`;
  return undefined;
}

/** Ids say nothing to a reader; they stay in the command as it was sent. */
const isOnlyIds = (text: string): boolean => text !== '' && text.split(', ').every((part) => ID.test(part));

function linesOf(value: unknown, path: readonly string[]): Line[] {
  const said = leaf(value);
  if (said !== undefined)
    return said === '' || isOnlyIds(said) ? [] : [{ term: capital(path.join(', ')), value: said }];
  if (Array.isArray(value)) return value.flatMap((one, i) => linesOf(one, [...path, String(i + 1)]));
  if (!isRecord(value)) return [];
  return Object.entries(value).flatMap(([key, one]) => linesOf(one, [...path, keyWords(key)]));
}

/**
 * What the command says, without ids: its body, and when it happened in the words of `moment`. Empty when there is
 * nothing but ids.
 */
export function readable(
  envelope: Readonly<Record<string, unknown>>,
  moment: (instant: string) => string,
): readonly Line[] {
  const { body, happenedAt } = envelope;
  const when = typeof happenedAt === 'string' ? [{ term: 'Happened', value: moment(happenedAt) }] : [];
  return [...linesOf(body, []), ...when];
}

/** `record-charge` as `Record charge`. */
export const commandWords = (kind: string): string => capital(kind.replaceAll('-', ' '));

/** How a closed item ended. */
export function closedWords(how: string | null): string {
  if (how === 'try-again') return 'tried again';
  if (how === 'leave-out') return 'left out, kept here';
  if (how === 'recall-opened') return 'a recall was opened';
  if (how === 'looked-at') return 'looked at';
  return how === null ? 'closed' : how.replaceAll('-', ' ');
}
