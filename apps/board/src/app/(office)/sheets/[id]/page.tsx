import { LeakRateSheetView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { getRecord } from '../../../../lib/api.ts';
import { LeakRateSheet } from '../../../../screens/papers/leak-rate-sheet.tsx';
import { PrintButton } from '../../../../screens/papers/print-button.tsx';
import css from '../../../../screens/papers/papers.module.css';

export const metadata: Metadata = { title: 'Leak-rate sheet' };

export default async function SheetPage({ params }: PageProps<'/sheets/[id]'>) {
  const { id } = await params;
  const sheet = await getRecord({ kind: 'sheets', id }, LeakRateSheetView);
  return (
    <main className={css['desk']}>
      <div className={css['bar']}>
        <p className="quiet">Read only: sheets are made from facts, not typed.</p>
        <div>
          <PrintButton />
        </div>
      </div>
      <LeakRateSheet sheet={sheet} />
    </main>
  );
}
