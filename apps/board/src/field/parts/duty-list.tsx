'use client';
import type { DutyView } from '@ullage/contracts';
import { Shape } from '../../ui/state.tsx';
import type { Mark } from '../../ui/marks.tsx';
import { dayAt, daysBetween, dayWords } from '../words.ts';
import css from './duty-list.module.css';

interface Said {
  readonly mark: Mark;
  readonly left: string;
}
/** Ten days or less is soon: the shortest window the US books give a follow-up (40 CFR 84.106(e)(2), 82.157(e)). */
const SOON_DAYS = 10;

/** What is left of a duty, with its shape. */
function saidOf(duty: DutyView, today: string): Said {
  switch (duty.state) {
    case 'discharged':
      return { mark: 'done', left: 'done' };
    case 'discharged-late':
      return { mark: 'done', left: 'done late' };
    case 'suspended':
      return { mark: 'hold', left: 'on hold' };
    case 'withdrawn':
      return { mark: 'refused', left: 'withdrawn' };
    case 'not-yet-known':
      return { mark: 'unsure', left: 'date not known yet' };
    case 'open':
      return openOf(duty, today);
  }
}
function openOf({ dueOn }: DutyView, today: string): Said {
  if (dueOn === null) return { mark: 'unsure', left: 'date not known yet' };
  const days = daysBetween(today, dueOn);
  if (days < 0) return { mark: 'late', left: `overdue by ${-days} ${days === -1 ? 'day' : 'days'}` };
  const left = days === 0 ? 'today' : `${days} ${days === 1 ? 'day' : 'days'}`;
  return { mark: days <= SOON_DAYS ? 'soon' : 'fine', left };
}

/** What the law asks after this visit, with dates and what is left of them. */
export function DutyList({
  duties,
  today,
  timeZone,
}: {
  duties: readonly DutyView[];
  today: string;
  timeZone: string;
}) {
  const day = dayAt(today, timeZone);
  const shown = duties.filter((duty) => duty.state !== 'withdrawn');
  return (
    <section className={css['duties']}>
      <h2>What the law asks next</h2>
      {shown.length === 0 && <p>Nothing follows from what was recorded so far.</p>}
      <ul>
        {shown.map((duty) => {
          const { mark, left } = saidOf(duty, day);
          return (
            <li key={duty.id}>
              <Shape mark={mark} size={16} />
              <span>{duty.title}</span>
              <b>{left}</b>
              <small>
                {duty.dueOn !== null && `by ${dayWords(duty.dueOn)}${duty.provisional ? ', provisional' : ''}; `}
                {duty.clause}; {duty.responsible.replaceAll('-', ' ')}
              </small>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
