import { Id, ManifestListView } from '@ullage/contracts';
import type { Metadata, Route } from 'next';
import { get } from '../../../../../lib/api.ts';
import { getMe } from '../../../../../lib/session.ts';
import { MANIFESTS_PATH } from '../../../../../office/link-to.ts';
import { ManifestTable } from '../../../../../office/manifest/manifest-table.tsx';
import css from '../../../../../office/office.module.css';
import { RefreshOnChange } from '../../../../../office/refresh-on-change.tsx';
import { EmptyState } from '../../../../../ui/blank.tsx';
import { ButtonLink } from '../../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Manifests' };

export default async function ManifestsPage({ searchParams }: PageProps<'/cylinders/manifests'>) {
  const { after: asked } = await searchParams;
  const after = Id.safeParse(asked).data;
  const [me, list] = await Promise.all([
    getMe(),
    get(`/v1/manifests${after === undefined ? '' : `?after=${after}`}`, ManifestListView),
  ]);
  const send = me.permissions.includes('cylinder.handle') && (
    <ButtonLink kind="main" href={`${MANIFESTS_PATH}/new` as Route}>
      Send cylinders
    </ButtonLink>
  );
  return (
    <main className={css['page']}>
      <RefreshOnChange />
      <header className={css['head']}>
        <h1>Manifests</h1>
        <p className={css['lead']}>What was sent to reclaimers and destroyers, and what they accepted of it.</p>
        <div className={css['bar']}>
          <ButtonLink href={'/cylinders' as Route}>All cylinders</ButtonLink>
          {list.items.length > 0 && send && <div className={css['actions']}>{send}</div>}
        </div>
      </header>
      <div className={css['list']}>
        <ManifestTable
          items={list.items}
          zone={me.tenant.timeZone}
          empty={
            <EmptyState title="Nothing was sent yet." actions={send || undefined}>
              <p>Gas that is fit for return or for destruction leaves on a manifest, each cylinder weighed.</p>
            </EmptyState>
          }
        />
      </div>
      {(list.next !== null || after !== undefined) && (
        <nav className={css['pages']} aria-label="Pages">
          <div className={css['bar']}>
            {after !== undefined && <ButtonLink href={MANIFESTS_PATH}>First page</ButtonLink>}
            {list.next !== null && (
              <ButtonLink href={`${MANIFESTS_PATH}?after=${list.next}` as Route}>Next page</ButtonLink>
            )}
          </div>
        </nav>
      )}
    </main>
  );
}
