import { ReturnsView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { Returns } from '../../../../screens/returns/returns.tsx';

export const metadata: Metadata = { title: 'Return visits' };

export default async function ReturnsPage({ searchParams }: PageProps<'/returns'>) {
  const [{ visit }, me, first] = await Promise.all([searchParams, getMe(), get('/v1/returns', ReturnsView)]);
  return (
    <Returns
      first={first}
      chosen={typeof visit === 'string' ? visit : ''}
      personId={me.person.id}
      mayPlace={me.permissions.includes('visit.place')}
      mayTakeCalls={me.permissions.includes('call.take')}
    />
  );
}
