'use client';
import type { VisitHead } from '@ullage/contracts';
import type { z } from 'zod';
import { SlackList } from '../../pictures/slack-list.tsx';
import { cx } from '../../ui/cx.ts';
import { Shape } from '../../ui/state.tsx';
import type { Picture } from './picture.ts';
import { RowLink } from './row-link.tsx';
import css from './returns.module.css';

type Head = z.infer<typeof VisitHead>;

/** Calls have no legal clock: they stand in the order they came, under the circuits that have one. */
export function CallRows({ calls, selected, select, week, offer }: Picture & { calls: readonly Head[] }) {
  return (
    <SlackList
      headless
      week={week}
      label="Calls nobody has been given yet"
      title={
        <>
          <h2>Calls nobody has yet</h2>
          <span>no legal clock; in the order they came</span>
        </>
      }
    >
      {calls.map((visit) => (
        <li
          key={visit.id}
          className={css['call']}
          data-selected={visit.id === selected || undefined}
          aria-current={visit.id === selected || undefined}
        >
          <p className={css['cut']}>
            <RowLink visitId={visit.id} select={select}>
              <span className="id">{visit.circuitTags.join(', ')}</span> {visit.siteName}
            </RowLink>
          </p>
          <p className={css['cut']}>
            <Shape mark="offer" /> <b>No visit yet</b>
          </p>
          <p className={cx(css['cut'], 'quiet')}>
            {offer?.visitId === visit.id && offer.time !== '' ? `Asked for: ${offer.time}. ` : ''}
            {visit.symptom ?? 'Nothing was noted about what is wrong.'}
          </p>
        </li>
      ))}
    </SlackList>
  );
}
