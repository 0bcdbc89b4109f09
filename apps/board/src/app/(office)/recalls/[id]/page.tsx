import { RecallView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { cache } from 'react';
import { getRecord } from '../../../../lib/api.ts';
import { getMe } from '../../../../lib/session.ts';
import { RecallPage } from '../../../../office/recall/recall-page.tsx';

/** Once a page: its title and its body ask for the same. */
const getRecall = cache((id: string) => getRecord({ kind: 'recalls', id }, RecallView));

export async function generateMetadata({ params }: PageProps<'/recalls/[id]'>): Promise<Metadata> {
  // What fails here fails in the page too, which says so; the error screen keeps the usual title.
  const view = await getRecall((await params).id).catch(() => undefined);
  return view ? { title: `Recall of ${view.subject.title}` } : {};
}

export default async function Page({ params }: PageProps<'/recalls/[id]'>) {
  const { id } = await params;
  const [view, me] = await Promise.all([getRecall(id), getMe()]);
  return <RecallPage view={view} tenant={me.tenant} maySettle={me.permissions.includes('attention.settle')} />;
}
