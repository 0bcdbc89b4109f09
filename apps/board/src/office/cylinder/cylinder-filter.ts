/** What the list of cylinders can be cut down to, beside its text. */
import { DOUBT_ASKED, EMPTY_CYLINDERS, Id, type CylinderListView } from '@ullage/contracts';
import type { FilterChoice } from '../../ui/filter-form.tsx';
import type { ListQuery } from '../list-query.ts';

export const CYLINDER_FILTERS = ['gas', 'doubt', 'site'] as const;
type Filter = (typeof CYLINDER_FILTERS)[number];

const FITS: Readonly<Record<Filter, (value: string) => boolean>> = {
  gas: () => true,
  doubt: (value) => (DOUBT_ASKED as readonly string[]).includes(value),
  site: (value) => Id.safeParse(value).success,
};
/** An address somebody typed may hold what the API would refuse: that filter is then left out. */
export const cylinderAsked = (asked: ListQuery): ListQuery => ({
  ...asked,
  after: Id.safeParse(asked.after).success ? asked.after : '',
  more: Object.fromEntries(
    CYLINDER_FILTERS.flatMap((name) => {
      const value = asked.more[name];
      return value !== undefined && FITS[name](value) ? [[name, value]] : [];
    }),
  ),
});

/** What is asked for stays in its list even where nothing is like that any more. */
const withAsked = (options: FilterChoice['options'], asked: string): FilterChoice['options'] =>
  asked === '' || options.some(({ value }) => value === asked) ? options : [...options, { value: asked, text: asked }];

export function cylinderChoices(
  { gases, places }: Pick<CylinderListView, 'gases' | 'places'>,
  { more }: ListQuery,
): FilterChoice[] {
  const gas = more['gas'] ?? '';
  const doubt = more['doubt'] ?? '';
  const site = more['site'] ?? '';
  const held = [...gases].sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const choices: FilterChoice[] = [
    {
      ...{ name: 'gas', label: 'Gas in it', all: 'any', value: gas },
      options: withAsked(
        [...held.map((value) => ({ value, text: value })), { value: EMPTY_CYLINDERS, text: 'nothing: empty' }],
        gas,
      ),
    },
    {
      ...{ name: 'doubt', label: 'Doubts', all: 'with or without', value: doubt },
      options: [
        { value: 'doubted', text: 'in doubt' },
        { value: 'undoubted', text: 'none known' },
      ],
    },
  ];
  if (places.length === 0 && site === '') return choices;
  const sites = places.map(({ id, name }) => ({ value: id, text: name }));
  const asked =
    sites.some(({ value }) => value === site) || site === ''
      ? sites
      : [...sites, { value: site, text: 'another site' }];
  return [...choices, { name: 'site', label: 'Last weighed at', all: 'anywhere', value: site, options: asked }];
}
