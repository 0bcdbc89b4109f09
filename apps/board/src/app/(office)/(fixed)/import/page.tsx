import { ImportListView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import css from '../../../../office/office.module.css';
import { ChooseFile } from '../../../../screens/import/choose-file.tsx';
import { ImportList } from '../../../../screens/import/import-list.tsx';
import { EmptyState } from '../../../../ui/blank.tsx';

export const metadata: Metadata = { title: 'Import' };

export default async function ImportsPage() {
  const me = await getMe();
  if (!me.permissions.includes('import.read'))
    return (
      <main className={css['page']}>
        <EmptyState as="h1" title="Your role imports no files.">
          <p>The owner or a manager does.</p>
        </EmptyState>
      </main>
    );
  const { items } = await get('/v1/imports', ImportListView);
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>Import</h1>
        <p className={css['lead']}>
          The spreadsheets you have, as they are. Every row is checked before anything is entered, and a whole import
          can be taken back while nothing rests on it.
        </p>
      </header>
      {me.permissions.includes('import.run') && <ChooseFile />}
      <ImportList items={items} timeZone={me.tenant.timeZone} />
    </main>
  );
}
