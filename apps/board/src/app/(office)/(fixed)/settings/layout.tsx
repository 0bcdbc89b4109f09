import type { ReactNode } from 'react';
import { getMe } from '../../../../lib/session.ts';
import { SettingsNav } from '../../../../screens/settings/settings-nav.tsx';
import css from '../../../../screens/settings/settings.module.css';

export default async function SettingsLayout({ children }: { children: ReactNode }) {
  const { role } = await getMe();
  return (
    <div className={css['frame']}>
      <SettingsNav role={role} />
      {children}
    </div>
  );
}
