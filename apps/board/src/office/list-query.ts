/** What a list page is asked: `?query=`, filters of its own, and, for a later page, `?after=`. */
export interface ListQuery {
  readonly query: string;
  readonly after: string;
  /** Further filters by name; one that is not asked for is not there. */
  readonly more: Readonly<Record<string, string>>;
}
type Asked = Readonly<Record<string, string | string[] | undefined>>;
const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? (value[0] ?? '') : (value ?? ''));

/** `filters` names the list's own; what else stands in the address is left out. */
export const listQuery = (asked: Asked, filters: readonly string[] = []): ListQuery => ({
  query: one(asked['query']).trim().slice(0, 100),
  after: one(asked['after']).slice(0, 200),
  more: Object.fromEntries(
    filters.map((name) => [name, one(asked[name]).trim().slice(0, 100)]).filter(([, value]) => value !== ''),
  ),
});

/** The part of an address after `?`, with what is empty left out; empty itself when nothing is asked. */
export function queryText({ query, after, more }: ListQuery): string {
  const asked = new URLSearchParams(more);
  if (query) asked.set('query', query);
  if (after) asked.set('after', after);
  return asked.size === 0 ? '' : `?${asked}`;
}

/** Whether the list is cut down to something. */
export const isFiltered = ({ query, more }: ListQuery): boolean => query !== '' || Object.keys(more).length > 0;
