/** What a list page is asked: `?query=` and, for a later page, `?after=`. */
export interface ListQuery {
  readonly query: string;
  readonly after: string;
}
const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? (value[0] ?? '') : (value ?? ''));

export const listQuery = (asked: Readonly<Record<string, string | string[] | undefined>>): ListQuery => ({
  query: one(asked['query']).trim().slice(0, 100),
  after: one(asked['after']).slice(0, 200),
});

/** The part of an address after `?`, with what is empty left out; empty itself when nothing is asked. */
export function queryText({ query, after }: ListQuery): string {
  const asked = new URLSearchParams();
  if (query) asked.set('query', query);
  if (after) asked.set('after', after);
  return asked.size === 0 ? '' : `?${asked}`;
}
