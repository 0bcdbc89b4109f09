import type { ReactNode } from 'react';
import { MARK_WORDS, MARKS, type Mark } from './marks.tsx';
import css from './state.module.css';

/** The shape alone, for places where the word stands elsewhere; silent for a screen reader. */
export function Shape({ mark, size = 12 }: { mark: Mark; size?: number }) {
  return (
    <svg className={css['shape']} width={size} height={size} viewBox="0 0 12 12" aria-hidden="true">
      {MARKS[mark]}
    </svg>
  );
}

/** Shape and word of a state. `children` replaces the usual word ("2 overdue"); text stays ink. */
export function State({ mark, children, size = 12 }: { mark: Mark; children?: ReactNode; size?: number }) {
  return (
    <span className={css['state']}>
      <Shape mark={mark} size={size} />
      <b>{children ?? MARK_WORDS[mark]}</b>
    </span>
  );
}

/** A mark inside a drawing, centred on a point; `x` may be a percentage of the drawing's width. */
export function MarkAt({ mark, x, y, size = 12, dx = 0 }: MarkAtProps) {
  return (
    <svg x={x} y={y} overflow="visible" className={css['mark']} aria-hidden="true">
      <svg x={dx - size / 2} y={-size / 2} width={size} height={size} viewBox="0 0 12 12" className={css['shape']}>
        {MARKS[mark]}
      </svg>
    </svg>
  );
}
export interface MarkAtProps {
  readonly mark: Mark;
  readonly x: number | string;
  readonly y: number;
  readonly size?: number;
  /** Pixels to the right of `x`. */
  readonly dx?: number;
}
