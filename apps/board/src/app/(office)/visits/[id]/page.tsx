import { UnitListView, VisitView } from '@ullage/contracts';
import type { Metadata } from 'next';
import { get, getRecord } from '../../../../lib/api.ts';
import { RefreshOnChange } from '../../../../office/refresh-on-change.tsx';
import { VisitPage } from '../../../../screens/papers/visit-page.tsx';

export const metadata: Metadata = { title: 'Visit' };

/** A visit names circuits; the list of units knows which unit each belongs to. */
async function unitIdsOf({ glances }: VisitView): Promise<string[]> {
  const found = await Promise.all(
    glances.map(({ tag }) => get(`/v1/units?query=${encodeURIComponent(tag.replace(/-[^-]*$/, ''))}`, UnitListView)),
  );
  const circuits = new Set(glances.map(({ circuitId }) => circuitId));
  const units = found.flatMap(({ items }) => items.filter((item) => circuits.has(item.circuitId)));
  return [...new Set(units.map(({ unitId }) => unitId))];
}

export default async function Page({ params }: PageProps<'/visits/[id]'>) {
  const { id } = await params;
  const page = await getRecord({ kind: 'visits', id }, VisitView);
  return (
    <>
      <RefreshOnChange />
      <VisitPage page={page} unitIds={await unitIdsOf(page)} />
    </>
  );
}
