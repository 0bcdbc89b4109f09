import { PeopleView } from '@ullage/contracts';
import type { Metadata } from 'next';
import * as z from 'zod';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { ROLE_NAMES, mayChange } from '../../../../../screens/people/people-form.ts';
import { SettingsPage } from '../../../../../screens/settings/settings-page.tsx';
import { SignIns } from '../../../../../screens/settings/sign-ins.tsx';
import { EmptyState } from '../../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Sign-ins of people' };

const List = z.object({
  items: z.array(
    z.object({
      personId: z.string(),
      secondFactor: z.boolean(),
      sessions: z.int(),
      usedAt: z.string().nullable(),
    }),
  ),
});
const LEAD =
  'Who has a second factor, and what to do when a phone is lost. A forgotten password is a matter of People.';

export default async function SignInsPage() {
  const me = await getMe();
  if (!me.permissions.includes('people.manage'))
    return (
      <SettingsPage title="Sign-ins of people" lead={LEAD}>
        <EmptyState title="An owner or a manager looks after these." />
      </SettingsPage>
    );
  const [{ items }, list] = await Promise.all([get('/v1/people', PeopleView), get('/v1/sign-ins', List)]);
  const mine = { role: me.role, personId: me.person.id };
  const people = items.flatMap((member) => {
    const signIn = list.items.find(({ personId }) => personId === member.id);
    if (!signIn) return [];
    const role = member.role === null ? '' : ROLE_NAMES[member.role];
    return [{ ...signIn, name: member.name, role, mayAct: mayChange(mine, member) }];
  });
  return (
    <SettingsPage title="Sign-ins of people" lead={LEAD}>
      <SignIns people={people} timeZone={me.tenant.timeZone} />
    </SettingsPage>
  );
}
