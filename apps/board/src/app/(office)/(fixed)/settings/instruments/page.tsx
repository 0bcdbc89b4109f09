import { InstrumentListView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Instruments } from '../../../../../screens/settings/instruments.tsx';

export const metadata: Metadata = { title: 'Instruments' };

export default async function InstrumentsPage() {
  const [me, view] = await Promise.all([getMe(), get('/v1/instruments', InstrumentListView)]);
  return (
    <Instruments
      view={view}
      mayChange={me.permissions.includes('instrument.register')}
      mayRecall={me.permissions.includes('attention.settle')}
      timeZone={me.tenant.timeZone}
    />
  );
}
