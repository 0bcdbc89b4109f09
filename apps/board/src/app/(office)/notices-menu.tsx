'use client';
import type { NoticesView } from '@ullage/contracts';
import { useId } from 'react';
import { countOf } from '../../office/count-words.ts';
import { momentWords } from '../../office/when.ts';
import css from './office.module.css';

/** Reminders for this person or their role. They go when their duty is discharged, so there is nothing to tick off. */
export function NoticesMenu({ notices, timeZone }: { notices: NoticesView['items']; timeZone: string }) {
  const id = useId();
  return (
    <>
      <button type="button" className={css['person']} popoverTarget={id}>
        <span>{countOf(notices.length, 'notice')}</span>
      </button>
      <div id={id} popover="auto" className={css['card']} data-wide role="group" aria-label="Notices">
        {notices.length === 0 && <p>No duty needs a reminder now.</p>}
        <ul>
          {notices.map((notice) => (
            <li key={notice.id}>
              <p>{notice.text}</p>
              <p className="quiet">
                <small>{momentWords(notice.at, timeZone)}</small>
              </p>
            </li>
          ))}
        </ul>
      </div>
    </>
  );
}
