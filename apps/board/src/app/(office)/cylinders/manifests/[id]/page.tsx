import { ManifestView } from '@ullage/contracts';
import { MASS_UNITS } from '@ullage/units';
import type { Metadata } from 'next';
import { getRecord } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { ManifestPage } from '../../../../../office/manifest/manifest-page.tsx';

export const metadata: Metadata = { title: 'Manifest' };

export default async function Page({ params }: PageProps<'/cylinders/manifests/[id]'>) {
  const { id } = await params;
  const [view, me] = await Promise.all([getRecord({ kind: 'manifests', id }, ManifestView), getMe()]);
  return (
    <ManifestPage
      view={view}
      unit={MASS_UNITS.find((unit) => unit === me.tenant.massUnit) ?? 'lb'}
      mayHandle={me.permissions.includes('cylinder.handle')}
    />
  );
}
