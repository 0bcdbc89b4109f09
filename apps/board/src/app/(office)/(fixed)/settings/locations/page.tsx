import { LocationListView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Locations } from '../../../../../screens/settings/locations.tsx';

export const metadata: Metadata = { title: 'Locations' };

export default async function LocationsPage() {
  const [me, view] = await Promise.all([getMe(), get('/v1/locations', LocationListView)]);
  return (
    <Locations
      view={view}
      mayChange={me.permissions.includes('location.register')}
      height={me.tenant.massUnit.startsWith('lb') ? 'ft' : 'm'}
    />
  );
}
