import { UnitListView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { CALL_PATH } from '../../../../office/link-to.ts';
import { ListFrame } from '../../../../office/list-frame.tsx';
import { listQuery, queryText } from '../../../../office/list-query.ts';
import { UnitTable } from '../../../../office/unit/unit-table.tsx';
import { dayAt } from '../../../../office/when.ts';
import { WhoRules } from '../../../../office/section.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Units' };

export default async function UnitsPage({ searchParams }: PageProps<'/units'>) {
  const asked = listQuery(await searchParams);
  const [me, list] = await Promise.all([getMe(), get(`/v1/units${queryText(asked)}`, UnitListView)]);
  const call = me.permissions.includes('call.take') && (
    <ButtonLink kind="main" href={CALL_PATH}>
      Take a call
    </ButtonLink>
  );
  return (
    <ListFrame
      title="Units"
      lead="One line for each circuit: the law counts charge, rate and duties by circuit."
      path="/units"
      filterLabel="Unit, site or customer"
      asked={asked}
      next={list.next}
      actions={call}
    >
      <UnitTable
        items={list.items}
        today={dayAt(me.now, me.tenant.timeZone)}
        empty={
          asked.query ? (
            <EmptyState title={`No circuit matches “${asked.query}”.`}>
              <p>The filter looks in the unit’s tag, the site’s name and the customer’s.</p>
            </EmptyState>
          ) : (
            <EmptyState title="No unit is known yet.">
              <p>A unit is entered with the first call that names it, or with the spreadsheet you import.</p>
            </EmptyState>
          )
        }
      />
      {list.items.length > 0 && <WhoRules />}
    </ListFrame>
  );
}
