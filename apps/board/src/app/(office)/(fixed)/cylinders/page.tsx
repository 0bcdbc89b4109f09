import { CylinderListView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata, Route } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { CylinderTable } from '../../../../office/cylinder/cylinder-table.tsx';
import { ListFrame } from '../../../../office/list-frame.tsx';
import { listQuery, queryText } from '../../../../office/list-query.ts';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Cylinders' };

export default async function CylindersPage({ searchParams }: PageProps<'/cylinders'>) {
  const asked = listQuery(await searchParams);
  const [me, list] = await Promise.all([getMe(), get(`/v1/cylinders${queryText(asked)}`, CylinderListView)]);
  const register = me.permissions.includes('cylinder.register') && (
    <ButtonLink kind="main" href={'/cylinders/new' as Route}>
      Register cylinder
    </ButtonLink>
  );
  return (
    <ListFrame
      title="Cylinders"
      lead="What is in each, by the books, and what is doubtful about it."
      path="/cylinders"
      filterLabel="Serial, label or gas"
      asked={asked}
      next={list.next}
      actions={register}
    >
      <CylinderTable
        items={list.items}
        unit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
        empty={
          <EmptyState
            title={asked.query ? `No cylinder matches “${asked.query}”.` : 'No cylinder is registered yet.'}
            actions={asked.query ? undefined : register || undefined}
          >
            <p>
              {asked.query
                ? 'The filter looks in serial, label and the gas it is for.'
                : 'A cylinder is registered by its stamps, here or on the spot in the field.'}
            </p>
          </EmptyState>
        }
      />
    </ListFrame>
  );
}
