import { SettingsView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { SettingsPage } from '../../../../../screens/settings/settings-page.tsx';
import { UnitsRead, UnitsSettings } from '../../../../../screens/settings/units-settings.tsx';

export const metadata: Metadata = { title: 'Units and limits' };

export default async function UnitsPage() {
  const [me, view] = await Promise.all([getMe(), get('/v1/settings', SettingsView)]);
  return (
    <SettingsPage
      title="Units and limits"
      lead="How figures are offered and shown, in the office and in the field. What somebody entered always stays as it was entered."
    >
      {me.permissions.includes('settings.change') ? (
        <UnitsSettings key={JSON.stringify(view)} view={view} />
      ) : (
        <UnitsRead view={view} />
      )}
    </SettingsPage>
  );
}
