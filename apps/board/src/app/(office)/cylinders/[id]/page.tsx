import { CylinderView } from '@ullage/contracts';
import { REFRIGERANTS } from '@ullage/rulebook';
import type { Metadata } from 'next';
import { cache } from 'react';
import { getRecord } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { CylinderPage } from '../../../../office/cylinder/cylinder-page.tsx';

const byNumber = new Intl.Collator('en', { numeric: true });
const REFRIGERANT_NAMES = Object.keys(REFRIGERANTS).sort((a, b) => byNumber.compare(a, b));
/** Once a page: its title and its body ask for the same. */
const getCylinder = cache((id: string) => getRecord({ kind: 'cylinders', id }, CylinderView));

export async function generateMetadata({ params }: PageProps<'/cylinders/[id]'>): Promise<Metadata> {
  // What fails here fails in the page too, which says so; the error screen keeps the usual title.
  const view = await getCylinder((await params).id).catch(() => undefined);
  if (!view) return {};
  const { cylinder } = view;
  return { title: `Cylinder ${cylinder.label ?? cylinder.serial}` };
}

export default async function Page({ params }: PageProps<'/cylinders/[id]'>) {
  const { id } = await params;
  const [view, me] = await Promise.all([getCylinder(id), getMe()]);
  return (
    <CylinderPage
      view={view}
      tenant={me.tenant}
      mayHandle={me.permissions.includes('cylinder.handle')}
      mayRecall={me.permissions.includes('attention.settle')}
      refrigerants={REFRIGERANT_NAMES}
    />
  );
}
