import { ImportView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { getRecord } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { ImportScreen } from '../../../../screens/import/import-screen.tsx';

export const metadata: Metadata = { title: 'Import' };

export default async function ImportPage({ params }: PageProps<'/import/[id]'>) {
  const { id } = await params;
  const [me, first] = await Promise.all([getMe(), getRecord({ kind: 'imports', id }, ImportView)]);
  return <ImportScreen key={id} first={first} acts={me.permissions.includes('import.run')} />;
}
