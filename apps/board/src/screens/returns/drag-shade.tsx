'use client';
import { createPortal } from 'react-dom';
import { weekOfPerson } from './drag-attach.ts';
import { shareOf, type Stretch } from './drag-moment.ts';
import css from './drag.module.css';

const percent = (share: number): string => `${share * 100}%`;

/** Lays over a person's week the starts that are closed, and those that only bend a rule of our own. */
export function DragShade({ personId, stretches }: { personId: string; stretches: readonly Stretch[] }) {
  const week = weekOfPerson(personId);
  if (!week) return null;
  return createPortal(
    stretches.map(({ ahead, fromMinutes, toMinutes, verdict }) => {
      const from = shareOf({ ahead, minutes: fromMinutes });
      const to = shareOf({ ahead, minutes: toMinutes });
      return (
        <i
          key={`${ahead} ${fromMinutes}`}
          className={css['shade']}
          data-verdict={verdict}
          style={{ left: percent(from), width: percent(to - from) }}
        />
      );
    }),
    week,
  );
}
