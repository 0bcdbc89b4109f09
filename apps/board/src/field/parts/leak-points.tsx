'use client';
import type { LeakPointView } from '@ullage/contracts';
import type { ReactNode } from 'react';
import { State } from '../../ui/state.tsx';
import { dayWords, sizeWords } from '../words.ts';
import css from './lists.module.css';

/** Leak points with where they are, how large and in what state. */
export function LeakPointList({
  points,
  title,
  more = 0,
}: {
  points: readonly LeakPointView[];
  title: ReactNode;
  more?: number;
}) {
  return (
    <section className={css['list']}>
      <h2>{title}</h2>
      {points.length === 0 && <p className={css['none']}>None found yet.</p>}
      <ul>
        {points.map((point) => (
          <li key={point.id}>
            <span>
              <span className="id">{point.label}</span> {point.placeText}
            </span>
            <State mark={point.state} size={13} />
            <small>
              {point.where}; {sizeWords(point.lowGramsPerYear, point.highGramsPerYear)}; {dayWords(point.changedOn)}
            </small>
          </li>
        ))}
      </ul>
      {more > 0 && <p className={css['more']}>{more} more</p>}
    </section>
  );
}
