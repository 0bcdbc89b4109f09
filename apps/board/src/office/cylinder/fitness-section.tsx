import type { CylinderView } from '@ullage/contracts';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { Reasons, Section } from '../section.tsx';
import css from '../office.module.css';
import { FIT_NOTES, FIT_WORDS } from './words.ts';

type Fitness = CylinderView['fitness'][number];

function Verdict({ fit, doubted }: { fit: boolean; doubted: boolean }) {
  if (!fit) return <State mark="refused">Not fit</State>;
  return doubted ? <State mark="half">Fit, in doubt</State> : <State mark="fine">Fit</State>;
}

/** What it may be used for today, each use with its reasons; when nothing is left, that comes first. */
export function FitnessSection({ view: { fitness, doubts, cylinder } }: { view: CylinderView }) {
  const isDoubted = doubts.length > 0 && cylinder.netGrams > 0;
  const none = fitness.find(({ use, fit }) => use === 'nothing' && fit);
  return (
    <Section id="fitness" title="What it is fit for" note="today; several at once">
      {none && (
        <>
          <p className={css['claim']}>
            <State mark="refused">Nothing, as it is</State>
          </p>
          <Reasons reasons={none.reasons} />
        </>
      )}
      <Table
        caption="Uses with reasons"
        rows={fitness.filter(({ use }) => use !== 'nothing')}
        keyOf={({ use }) => use}
        empty={null}
        columns={[
          {
            id: 'use',
            head: 'Use',
            cell: ({ use }: Fitness) => (
              <>
                {FIT_WORDS[use]}
                <small>{FIT_NOTES[use]}</small>
              </>
            ),
          },
          {
            id: 'fit',
            head: 'Fit',
            cell: ({ fit }) => (
              <span className={css['keep']}>
                <Verdict fit={fit} doubted={isDoubted} />
              </span>
            ),
          },
          { id: 'why', head: 'Why', cell: ({ reasons }) => <Reasons reasons={reasons} /> },
        ]}
      />
    </Section>
  );
}
