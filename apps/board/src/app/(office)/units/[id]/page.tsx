import { UnitView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { cache } from 'react';
import { getRecord } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { UnitPage } from '../../../../office/unit/unit-page.tsx';

/** Once a page: its title and its body ask for the same. */
const getUnit = cache((id: string) => getRecord({ kind: 'units', id }, UnitView));

export async function generateMetadata({ params }: PageProps<'/units/[id]'>): Promise<Metadata> {
  // What fails here fails in the page too, which says so; the error screen keeps the usual title.
  const unit = await getUnit((await params).id).catch(() => undefined);
  if (!unit) return {};
  return { title: `${unit.tag} ${unit.description ?? ''}`.trim() };
}

export default async function Page({ params, searchParams }: PageProps<'/units/[id]'>) {
  const [{ id }, { circuit }] = await Promise.all([params, searchParams]);
  const [unit, me] = await Promise.all([getUnit(id), getMe()]);
  return (
    <UnitPage
      unit={unit}
      letter={typeof circuit === 'string' ? circuit : undefined}
      mayPutRight={me.permissions.includes('call.take')}
    />
  );
}
