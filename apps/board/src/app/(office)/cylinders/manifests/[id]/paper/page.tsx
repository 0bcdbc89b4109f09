import { ManifestView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { getRecord } from '../../../../../../lib/api.ts';
import { manifestPath } from '../../../../../../office/link-to.ts';
import { ManifestPaper } from '../../../../../../screens/papers/manifest-paper.tsx';
import css from '../../../../../../screens/papers/papers.module.css';
import { PrintButton } from '../../../../../../screens/papers/print-button.tsx';
import { ButtonLink } from '../../../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Manifest' };

export default async function PaperPage({ params }: PageProps<'/cylinders/manifests/[id]/paper'>) {
  const { id } = await params;
  const view = await getRecord({ kind: 'manifests', id }, ManifestView);
  return (
    <main className={css['desk']}>
      <div className={css['bar']}>
        <p className="quiet">It goes with the cylinders, signed by all three.</p>
        <div>
          <ButtonLink href={manifestPath(id)}>The manifest</ButtonLink>
          <PrintButton />
        </div>
      </div>
      <ManifestPaper view={view} />
    </main>
  );
}
