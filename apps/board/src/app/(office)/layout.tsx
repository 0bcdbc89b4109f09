import type { ReactNode } from 'react';
import { getMe } from '../../lib/session.ts';
import { TopBar } from '../../ui/top-bar.tsx';
import { LineState } from './line-state.tsx';
import { PersonMenu } from './person-menu.tsx';

/** The frame of every office screen. The proxy saw a cookie; here the API says whose it is. */
export default async function OfficeLayout({ children }: { children: ReactNode }) {
  const { user, tenant } = await getMe();
  return (
    <>
      <TopBar
        firm={tenant.name}
        nav={[]}
        person={<PersonMenu name={user.name} email={user.email} />}
        line={<LineState />}
        banner={tenant.demo ? 'Demo: this contractor, its people and places are invented.' : undefined}
      />
      {children}
    </>
  );
}
