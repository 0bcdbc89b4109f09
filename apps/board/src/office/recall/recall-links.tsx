import type { RecallListView } from '@ullage/contracts';
import Link from 'next/link';
import { State } from '../../ui/state.tsx';
import { recallPath } from '../link-to.ts';
import { Section } from '../section.tsx';
import { momentWords } from '../when.ts';
import css from '../office.module.css';

type Item = RecallListView['items'][number];
function Line({ recall, zone }: { recall: Item; zone: string }) {
  const { id, title, why, openedAt, openedBy, closedAt } = recall;
  return (
    <li>
      <Link href={recallPath(id)}>
        Recall of <span className="id">{title}</span>
      </Link>
      : {why}{' '}
      <span className="quiet">
        {closedAt === null
          ? `Opened by ${openedBy}, ${momentWords(openedAt, zone)}`
          : `Closed ${momentWords(closedAt, zone)}`}
      </span>
    </li>
  );
}

/** Recalls that are worked off, and those that were. */
export function RecallLinks({ recalls, zone }: { recalls: readonly Item[]; zone: string }) {
  const open = recalls.filter(({ closedAt }) => closedAt === null);
  const closed = recalls.filter(({ closedAt }) => closedAt !== null);
  if (recalls.length === 0) return null;
  return (
    <Section id="recalls" title="Recalls">
      {open.length === 0 ? (
        <p>
          <State mark="done">None is open</State>
        </p>
      ) : (
        <ul className={css['books']}>
          {open.map((recall) => (
            <Line key={recall.id} recall={recall} zone={zone} />
          ))}
        </ul>
      )}
      {closed.length > 0 && (
        <details className={css['more']}>
          <summary>Closed: {closed.length}</summary>
          <ul className={css['books']}>
            {closed.map((recall) => (
              <Line key={recall.id} recall={recall} zone={zone} />
            ))}
          </ul>
        </details>
      )}
    </Section>
  );
}
