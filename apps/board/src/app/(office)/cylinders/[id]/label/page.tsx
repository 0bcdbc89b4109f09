import { CylinderView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { headers } from 'next/headers';
import { getRecord } from '../../../../../lib/api.ts';
import { cylinderPath } from '../../../../../office/link-to.ts';
import { CylinderLabel } from '../../../../../screens/papers/cylinder-label.tsx';
import { PrintButton } from '../../../../../screens/papers/print-button.tsx';
import css from '../../../../../screens/papers/papers.module.css';

export const metadata: Metadata = { title: 'Cylinder label' };

export default async function LabelPage({ params }: PageProps<'/cylinders/[id]/label'>) {
  const { id } = await params;
  const view = await getRecord({ kind: 'cylinders', id }, CylinderView);
  const asked = await headers();
  // The address by which this page was reached is the one a phone in the same house can reach.
  const origin = `${asked.get('x-forwarded-proto') ?? 'http'}://${asked.get('host') ?? 'localhost'}`;
  return (
    <main className={css['desk']}>
      <div className={css['bar']}>
        <p className="quiet">A phone’s camera reads the code and opens the cylinder.</p>
        <div>
          <PrintButton />
        </div>
      </div>
      <CylinderLabel view={view} address={`${origin}${cylinderPath(id)}`} />
    </main>
  );
}
