'use client';
import type { Refusal } from '@ullage/roster';
import { dayName } from '../../lib/local-time.ts';
import { Shape } from '../../ui/state.tsx';
import type { Moment } from './drag-moment.ts';
import { RULE_NAMES } from '../../office/rule-names.ts';
import css from './drag.module.css';

const ROOM_ABOVE_PX = 150;

function Rule({ refusal: { whose, text, clause, code, overridable } }: { refusal: Refusal }) {
  return (
    <>
      <p>{text}</p>
      <p className={css['source']}>
        {whose === 'law'
          ? `Law, ${clause ?? 'as it stands'}: cannot be overridden.`
          : `Our own rule, ${RULE_NAMES[code] ?? 'set by this contractor'}${overridable ? ': it bends to a reason.' : '.'}`}
      </p>
    </>
  );
}

/** What is said of the moment under the pointer. For the eye alone: by keyboard the form says the same. */
export function DragNote({ x, top, name, moment, refusal, warning }: DragNoteProps) {
  const below = top < ROOM_ABOVE_PX;
  return (
    <div className={css['note']} data-below={below || undefined} style={{ left: x, top }} aria-hidden="true">
      <p className={css['moment']}>
        <Shape mark={refusal ? 'refused' : 'offer'} size={13} /> {dayName(moment.day)}, {moment.time}, {name}
      </p>
      {refusal ? <Rule refusal={refusal} /> : warning !== undefined && <p>{warning}</p>}
    </div>
  );
}
export interface DragNoteProps {
  readonly x: number;
  /** The upper edge of the week. */
  readonly top: number;
  readonly name: string;
  readonly moment: Moment;
  readonly refusal: Refusal | undefined;
  readonly warning: string | undefined;
}
