import { headers } from 'next/headers';
import { redirect } from 'next/navigation';
import type { ReactNode } from 'react';
import { getContractor, getSession } from '../../lib/session.ts';
import { TopBar } from '../../ui/top-bar.tsx';
import { LineState } from './line-state.tsx';
import { PersonMenu } from './person-menu.tsx';

/** The frame of every office screen. The proxy saw a cookie; here the API says whose it is. */
export default async function OfficeLayout({ children }: { children: ReactNode }) {
  const session = await getSession();
  if (!session) {
    const at = (await headers()).get('x-path') ?? '/';
    redirect(at === '/' ? '/sign-in' : `/sign-in?next=${encodeURIComponent(at)}`);
  }
  const contractor = await getContractor(session.session.activeOrganizationId);
  return (
    <>
      <TopBar
        firm={contractor?.name ?? 'Ullage'}
        nav={[]}
        person={<PersonMenu name={session.user.name} email={session.user.email} />}
        line={<LineState />}
      />
      {children}
    </>
  );
}
