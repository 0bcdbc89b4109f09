'use client';
import type { AttentionView, MeView, NoticesView } from '@ullage/contracts';
import { usePathname } from 'next/navigation';
import { useEffect } from 'react';
import { call } from '../../lib/client.ts';
import { useLive } from '../../lib/use-live.ts';
import { findFrom, placeOf, placesFor } from '../../office/places.ts';
import { FindField } from '../../ui/find-field.tsx';
import { TopBar } from '../../ui/top-bar.tsx';
import { LineState } from './line-state.tsx';
import { NoticesMenu } from './notices-menu.tsx';
import { PersonMenu } from './person-menu.tsx';
import { useArrivals } from './use-arrivals.ts';
import css from './office.module.css';

export interface Waiting {
  readonly attention: AttentionView;
  readonly notices: NoticesView;
}

async function fetchWaiting(): Promise<Waiting> {
  const [attention, notices] = await Promise.all([
    call<AttentionView>('/v1/attention'),
    call<NoticesView>('/v1/notices'),
  ]);
  if (!attention.ok || !notices.ok) throw new Error('the server cannot be reached');
  return { attention: attention.data, notices: notices.data };
}

/** The bar of every office screen: where we are, what waits, who is here. What waits is kept up to date. */
export function OfficeBar({ me, first }: { me: MeView; first: Waiting }) {
  const path = usePathname();
  const { data, refresh } = useLive(first, fetchWaiting);
  useArrivals(data.notices.items);
  const places = placesFor(me, data.attention.items.filter((item) => item.closedAt === null).length);
  const find = findFrom(path);
  useEffect(() => {
    // On a narrow screen the places scroll sideways: where we are must not lie out of sight.
    const current = document.querySelector('nav[aria-label="Main"] [aria-current]');
    current?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [path]);
  return (
    <TopBar
      firm={me.tenant.name}
      nav={places}
      current={placeOf(path, places)}
      find={<FindField key={find.action} {...find} />}
      person={
        <div className={css['people']}>
          <NoticesMenu
            notices={data.notices.items}
            timeZone={me.tenant.timeZone}
            mayTick={me.permissions.includes('notice.tick')}
            onChanged={refresh}
          />
          <PersonMenu name={me.user.name} email={me.user.email} />
        </div>
      }
      line={<LineState />}
      banner={me.tenant.demo ? 'Invented firm, people and places' : undefined}
    />
  );
}
