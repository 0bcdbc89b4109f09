import type { MeView, Role } from '@ullage/contracts';
import type { Route } from 'next';
import { countWords } from './count-words.ts';

/** Where each role's day begins. */
export function firstScreen(role: Role): Route {
  switch (role) {
    case 'technician':
      return '/field' as Route;
    case 'warehouse':
      return '/cylinders' as Route;
    case 'owner':
    case 'manager':
    case 'dispatcher':
    case 'auditor':
      return '/returns' as Route;
  }
}

export interface Place {
  readonly name: string;
  readonly href: Route;
  /** Further screens that belong to it. */
  readonly also?: readonly Route[];
}
const COSTS: Place = {
  name: 'Costs',
  href: '/repeats' as Route,
  also: ['/gas-used' as Route, '/prices' as Route],
};
/** The places of the top bar. `waiting` is how many attention items are open. */
export function placesFor(
  { role, permissions }: Pick<MeView, 'role' | 'permissions'>,
  waiting: number,
): readonly Place[] {
  const attention = waiting === 0 ? 'Attention' : `Attention, ${countWords(waiting)}`;
  return [
    { name: 'Return visits', href: '/returns' as Route },
    { name: 'Units', href: '/units' as Route },
    { name: 'Cylinders', href: '/cylinders' as Route },
    { name: 'Books', href: '/books' as Route },
    ...(permissions.includes('costs.read') ? [COSTS] : []),
    { name: attention, href: '/attention' as Route, also: ['/recalls' as Route] },
    ...(role === 'owner' || role === 'manager' ? [{ name: 'People', href: '/people' as Route }] : []),
    ...(permissions.includes('import.read') ? [{ name: 'Import', href: '/import' as Route }] : []),
  ];
}
/** The place a path lies in. */
export const placeOf = (path: string, places: readonly Place[]): Route | undefined =>
  places.find(({ href, also = [] }) => [href, ...also].some((one) => path === one || path.startsWith(`${one}/`)))?.href;

/** What the find field looks for: cylinders where cylinders are shown, units everywhere else. */
export const findFrom = (path: string): { readonly label: string; readonly action: Route } =>
  path === '/cylinders' || path.startsWith('/cylinders/')
    ? { label: 'Serial, label or gas', action: '/cylinders' as Route }
    : { label: 'Unit, site or customer', action: '/units' as Route };
