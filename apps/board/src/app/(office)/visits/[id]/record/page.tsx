import { ServiceRecordView } from '@ullage/contracts';
import type { Metadata, Route } from 'next';
import { getRecord } from '../../../../../lib/api.ts';
import css from '../../../../../screens/papers/papers.module.css';
import { PrintButton } from '../../../../../screens/papers/print-button.tsx';
import { ServiceRecord } from '../../../../../screens/papers/service-record.tsx';
import { ButtonLink } from '../../../../../ui/button-link.tsx';

export const metadata: Metadata = { title: 'Service record' };

export default async function RecordPage({ params }: PageProps<'/visits/[id]/record'>) {
  const { id } = await params;
  const record = await getRecord({ kind: 'visits', id, part: '/service-record' }, ServiceRecordView);
  return (
    <main className={css['desk']}>
      <div className={css['bar']}>
        <p className="quiet">What the contractor hands over. It carries neither full charge nor leak rate.</p>
        <div>
          <ButtonLink href={`/visits/${record.visitId}` as Route}>The visit</ButtonLink>
          <PrintButton />
        </div>
      </div>
      <ServiceRecord record={record} />
    </main>
  );
}
