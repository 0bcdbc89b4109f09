import { AttentionView, NoticesView } from '@ullage/contracts';
import type { ReactNode } from 'react';
import { get } from '../../lib/api.ts';
import { getMe } from '../../lib/session.ts';
import { Going } from './going.tsx';
import { OfficeBar } from './office-bar.tsx';

/** The frame of every office screen. The proxy saw a cookie; here the API says whose it is. */
export default async function OfficeLayout({ children }: { children: ReactNode }) {
  const me = await getMe();
  const [attention, notices] = await Promise.all([
    get('/v1/attention', AttentionView),
    get('/v1/notices', NoticesView),
  ]);
  return (
    <>
      <OfficeBar me={me} first={{ attention, notices }} />
      <Going />
      {children}
    </>
  );
}
