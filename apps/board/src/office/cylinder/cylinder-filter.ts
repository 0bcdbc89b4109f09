/** What the list of cylinders can be cut down to, beside its text. */
import { AWAY_ASKED, DOUBT_ASKED, EMPTY_CYLINDERS, Id, type CylinderListView } from '@ullage/contracts';
import type { FilterChoice } from '../../ui/filter-form.tsx';
import type { ListQuery } from '../list-query.ts';

export const CYLINDER_FILTERS = ['gas', 'doubt', 'place', 'site'] as const;
type Filter = (typeof CYLINDER_FILTERS)[number];

const FITS: Readonly<Record<Filter, (value: string) => boolean>> = {
  gas: () => true,
  doubt: (value) => (DOUBT_ASKED as readonly string[]).includes(value),
  place: (value) => (AWAY_ASKED as readonly string[]).includes(value) || Id.safeParse(value).success,
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

const AWAY: Readonly<Record<string, string>> = { lost: 'lost', gone: 'gone for good', nowhere: 'not said' };
/** `Van 3, Rosa Quill`; of a reclaimer or a customer's site what it is. */
function keptWords({ place, name, kind, keeper }: CylinderListView['kept'][number]): string {
  if (name === null) return AWAY[place] ?? place;
  if (keeper !== null) return `${name}, ${keeper}`;
  const isOthers = kind !== null && ['reclaimer', 'supplier', 'customer-site'].includes(kind);
  return isOthers ? `${name}, ${kind === 'customer-site' ? 'customer’s site' : kind}` : name;
}

/** An address that a label's code leads to, as a scanner types it, or a serial or label that is that very cylinder's. */
export function scannedCylinder(query: string, items: CylinderListView['items']): string | undefined {
  const [, id] = /\/cylinders\/([0-9a-f-]{36})$/i.exec(query) ?? [];
  if (id !== undefined) return Id.safeParse(id).success ? id : undefined;
  const is = (text: string | null): boolean => text !== null && text.toLowerCase() === query.toLowerCase();
  const exact = items.filter(({ serial, label }) => is(serial) || is(label));
  return exact.length === 1 ? exact[0]?.id : undefined;
}

export function cylinderChoices(
  { gases, places, kept }: Pick<CylinderListView, 'gases' | 'places' | 'kept'>,
  { more }: ListQuery,
): FilterChoice[] {
  const gas = more['gas'] ?? '';
  const doubt = more['doubt'] ?? '';
  const place = more['place'] ?? '';
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
  // A firm that never said where a cylinder stands has nothing to choose between.
  if (place !== '' || kept.some((one) => one.place !== 'nowhere'))
    choices.push({
      ...{ name: 'place', label: 'Kept at', all: 'anywhere', value: place },
      options: withAsked(
        kept.map((one) => ({ value: one.place, text: `${keptWords(one)} (${one.cylinders})` })),
        place,
      ),
    });
  if (places.length === 0 && site === '') return choices;
  const sites = places.map(({ id, name }) => ({ value: id, text: name }));
  const asked =
    sites.some(({ value }) => value === site) || site === ''
      ? sites
      : [...sites, { value: site, text: 'another site' }];
  return [...choices, { name: 'site', label: 'Last weighed at', all: 'anywhere', value: site, options: asked }];
}
