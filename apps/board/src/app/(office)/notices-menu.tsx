'use client';
import Link from 'next/link';
import { useId, useRef, useState } from 'react';
import { send } from '../../lib/client.ts';
import { countOf } from '../../office/count-words.ts';
import { unitPath } from '../../office/link-to.ts';
import { nextWaiting, overWords, sortNotices, type Notice } from '../../office/notices.ts';
import { momentWords } from '../../office/when.ts';
import { Button } from '../../ui/button.tsx';
import { tell } from '../../ui/toast.tsx';
import css from './office.module.css';

export interface NoticesMenuProps {
  readonly notices: readonly Notice[];
  readonly timeZone: string;
  /** An auditor reads them and ticks none off. */
  readonly mayTick: boolean;
  readonly onChanged: () => void;
}

interface LineProps {
  readonly notice: Notice;
  readonly timeZone: string;
  readonly onLeave: () => void;
}
function Line({ notice, timeZone, onLeave }: LineProps) {
  const { text, at, over, read, unitId, circuitLetter } = notice;
  const state = over === null ? read && 'read' : overWords(over);
  return (
    <div>
      <p>
        {unitId === null ? (
          text
        ) : (
          <Link href={unitPath(unitId, circuitLetter)} onClick={onLeave}>
            {text}
          </Link>
        )}
      </p>
      <p className="quiet">
        <small>
          {momentWords(at, timeZone)}
          {state && `; ${state}`}
        </small>
      </p>
    </div>
  );
}

type LinesProps = Omit<LineProps, 'notice'> & { readonly list: readonly Notice[] };
function QuietLines({ list, ...line }: LinesProps) {
  return list.map((notice) => (
    <li key={notice.id} className="quiet">
      <Line notice={notice} {...line} />
    </li>
  ));
}

function Earlier({ list, ...line }: LinesProps) {
  if (list.length === 0) return null;
  return (
    <details className={css['earlier']}>
      <summary>Earlier: {countOf(list.length, 'notice')}</summary>
      <ul>
        <QuietLines list={list} {...line} />
      </ul>
    </details>
  );
}

/** Ticking off: which are under way, and where the keyboard goes on. */
function useTick(waiting: readonly Notice[], onChanged: () => void) {
  const id = useId();
  const card = useRef<HTMLDivElement>(null);
  const [busy, setBusy] = useState<readonly string[]>([]);
  const buttonOf = (notice: string): string => `${id}-${notice}`;
  async function tick(ids: readonly string[]): Promise<void> {
    setBusy(ids);
    const answer = await send('/v1/commands/mark-notices-read', { body: { body: { noticeIds: ids } } });
    setBusy([]);
    if (!answer.ok) return tell(answer.problem.detail, 'refused');
    // The button that was pressed goes away: the keyboard goes on with the next, or stays in the card.
    const next = nextWaiting(waiting, ids);
    (next === undefined ? card.current : document.getElementById(buttonOf(next)))?.focus();
    onChanged();
  }
  return { id, card, busy, buttonOf, tick };
}

/** Reminders for this person or their role: what waits, what they ticked off, and what nobody has to act on any more. */
export function NoticesMenu({ notices, timeZone, mayTick, onChanged }: NoticesMenuProps) {
  const { waiting, read, earlier } = sortNotices(notices);
  const { id, card, busy, buttonOf, tick } = useTick(waiting, onChanged);
  const line = { timeZone, onLeave: () => card.current?.hidePopover() };
  return (
    <>
      <button type="button" className={css['person']} popoverTarget={id}>
        <span>{countOf(waiting.length, 'notice')}</span>
      </button>
      <div
        id={id}
        ref={card}
        popover="auto"
        tabIndex={-1}
        className={css['card']}
        data-wide
        role="group"
        aria-label="Notices"
      >
        {waiting.length + read.length === 0 && <p>No duty needs a reminder now.</p>}
        <ul>
          {waiting.map((notice) => (
            <li key={notice.id} className={css['notice']}>
              <Line notice={notice} {...line} />
              {mayTick && (
                <Button
                  id={buttonOf(notice.id)}
                  busy={busy.includes(notice.id)}
                  aria-label={`Mark as read: ${notice.text}`}
                  onClick={() => void tick([notice.id])}
                >
                  Read
                </Button>
              )}
            </li>
          ))}
          <QuietLines list={read} {...line} />
        </ul>
        {mayTick && waiting.length > 1 && (
          <Button busy={busy.length > 1} onClick={() => void tick(waiting.map((notice) => notice.id))}>
            Mark all as read
          </Button>
        )}
        <Earlier list={earlier} {...line} />
      </div>
    </>
  );
}
