import { LeavingView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { Leaving } from '../../../../../screens/settings/leaving/leaving.tsx';

export const metadata: Metadata = { title: 'Leaving' };

export default async function LeavingPage() {
  const [me, view] = await Promise.all([getMe(), get('/v1/leaving', LeavingView)]);
  return <Leaving first={view} mayLeave={me.permissions.includes('leave')} timeZone={me.tenant.timeZone} />;
}
