import { PeriodAccountsView, PeriodView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../../lib/api.ts';
import { localTime } from '../../../../../lib/local-time.ts';
import { getMe } from '../../../../../lib/session.ts';
import { PeriodPage } from '../../../../../office/period/period-page.tsx';
import { askedDays } from '../../../../../office/period/periods.ts';

export const metadata: Metadata = { title: 'Books of a period' };

export default async function Page({ searchParams }: PageProps<'/books/period'>) {
  const [said, me] = await Promise.all([searchParams, getMe()]);
  const today = localTime(me.now, me.tenant.timeZone).day;
  const days = askedDays(said, today);
  const asked = new URLSearchParams({ ...days });
  const of = typeof said['of'] === 'string' ? said['of'].trim().slice(0, 40) : '';
  const gas = new URLSearchParams({ ...days, refrigerant: of });
  const [view, accounts] = await Promise.all([
    get(`/v1/books/period?${asked}`, PeriodView),
    of === '' ? undefined : get(`/v1/books/period/accounts?${gas}`, PeriodAccountsView),
  ]);
  return <PeriodPage view={view} accounts={accounts} today={today} />;
}
