import type { CylinderView } from '@ullage/contracts';
import Link from 'next/link';
import { DoubtCard } from '../doubt-card.tsx';
import { factPath } from '../link-to.ts';
import { Section } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from '../office.module.css';

type Cleared = CylinderView['clearedDoubts'][number];
function ClearedBy({ doubt, cylinderId, zone }: { doubt: Cleared; cylinderId: string; zone: string }) {
  const place = {
    title: '',
    summary: '',
    happenedAt: doubt.clearedAt,
    visitId: null,
    unitId: null,
    circuitLetter: null,
  };
  const path = factPath({ id: doubt.clearedByFactId, cylinderId, ...place });
  return (
    <>
      cleared by {path ? <Link href={path}>an air check</Link> : 'an air check'}, {momentWords(doubt.clearedAt, zone)}
    </>
  );
}

/** What is doubtful about its gas now, and what was until a check cleared it. */
export function DoubtsSection({ view, zone }: { view: CylinderView; zone: string }) {
  const { doubts, clearedDoubts, cylinder } = view;
  return (
    <Section id="doubts" title="Doubts about its gas">
      {doubts.length === 0 && <p>None known. That is no certificate of purity: only a laboratory gives one.</p>}
      <ul className={css['doubts']}>
        {doubts.map((doubt) => (
          <DoubtCard key={doubt.id} doubt={doubt} zone={zone} />
        ))}
      </ul>
      {clearedDoubts.length > 0 && (
        <details className={css['more']}>
          <summary>Cleared doubts, {clearedDoubts.length}</summary>
          <ul className={css['doubts']}>
            {clearedDoubts.map((doubt) => (
              <DoubtCard key={doubt.id} doubt={doubt} zone={zone}>
                <ClearedBy {...{ doubt, zone }} cylinderId={cylinder.id} />
              </DoubtCard>
            ))}
          </ul>
        </details>
      )}
      {doubts.length > 0 && <p className={css['rules']}>Field tests sort cylinders; they certify nothing.</p>}
    </Section>
  );
}
