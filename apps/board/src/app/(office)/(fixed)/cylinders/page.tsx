import { CylinderListView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata, Route } from 'next';
import { redirect } from 'next/navigation';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import {
  CYLINDER_FILTERS,
  cylinderAsked,
  cylinderChoices,
  scannedCylinder,
} from '../../../../office/cylinder/cylinder-filter.ts';
import { CylinderTable } from '../../../../office/cylinder/cylinder-table.tsx';
import { ListFrame } from '../../../../office/list-frame.tsx';
import { isFiltered, listQuery, queryText } from '../../../../office/list-query.ts';
import { cylinderPath, MANIFESTS_PATH } from '../../../../office/link-to.ts';
import { EmptyState } from '../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Cylinders' };

export default async function CylindersPage({ searchParams }: PageProps<'/cylinders'>) {
  const asked = cylinderAsked(listQuery(await searchParams, CYLINDER_FILTERS));
  const [me, list] = await Promise.all([getMe(), get(`/v1/cylinders${queryText(asked)}`, CylinderListView)]);
  // A scanner types what it reads and presses Enter: the one cylinder that it names opens by itself.
  const scanned = asked.query === '' ? undefined : scannedCylinder(asked.query, list.items);
  if (scanned !== undefined && list.next === null) redirect(cylinderPath(scanned));
  const delivery = me.permissions.includes('cylinder.handle') && (
    <ButtonLink href={'/cylinders/delivery' as Route}>Delivery</ButtonLink>
  );
  const register = me.permissions.includes('cylinder.register') && (
    <ButtonLink kind="main" href={'/cylinders/new' as Route}>
      Register cylinder
    </ButtonLink>
  );
  const empty = isFiltered(asked) ? (
    <EmptyState title={asked.query ? `No cylinder matches “${asked.query}”.` : 'No cylinder is like that.'}>
      <p>The text looks in serial, label and gas; every filter that is set must fit.</p>
    </EmptyState>
  ) : (
    <EmptyState title="No cylinder is registered yet." actions={register || undefined}>
      <p>A cylinder is registered by its stamps, here or on the spot in the field.</p>
    </EmptyState>
  );
  return (
    <ListFrame
      title="Cylinders"
      lead="What is in each, by the books, what is doubtful about it, and where it is. A serial or a label that is scanned opens its cylinder."
      path="/cylinders"
      filterLabel="Serial, label or gas"
      choices={cylinderChoices(list, asked)}
      asked={asked}
      next={list.next}
      actions={
        <>
          <ButtonLink href={MANIFESTS_PATH}>Manifests</ButtonLink>
          {delivery}
          {register}
        </>
      }
    >
      <CylinderTable
        items={list.items}
        unit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
        zone={me.tenant.timeZone}
        empty={empty}
      />
    </ListFrame>
  );
}
