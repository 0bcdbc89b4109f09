import { PeopleView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { People } from '../../../../screens/people/people.tsx';

export const metadata: Metadata = { title: 'People' };

export default async function PeoplePage() {
  const [me, first] = await Promise.all([getMe(), get('/v1/people', PeopleView)]);
  return (
    <People
      first={first}
      mine={{ role: me.role, personId: me.person.id }}
      manages={me.permissions.includes('people.manage')}
      timeZone={me.tenant.timeZone}
    />
  );
}
