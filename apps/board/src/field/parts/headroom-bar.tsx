'use client';
import type { GlanceView } from '@ullage/contracts';
import { exactGrams, toNumber } from '@ullage/units';
import { ticksTo } from '../../pictures/scales.ts';
import { enteredWords } from '../sums.ts';
import css from './step.module.css';
import draw from './drawings.module.css';

const GRAMS_PER = { lb: 453.59237, oz: 28.349523125, kg: 1000, g: 1, 'lb-oz': 453.59237 } as const;

/** How much may still be added today before the rate is over the threshold: said, then drawn. */
export function HeadroomBar({ glance }: { glance: GlanceView }) {
  const { headroom } = glance;
  if (!headroom) return <p className={css['say']}>{glance.headroomWhyNot ?? 'No rate is counted for this circuit.'}</p>;
  const words = enteredWords(headroom.mass);
  const isNone = headroom.grams <= 0;
  return (
    <section>
      <p className={css['say']}>
        {isNone ? (
          <>
            <b>Any gas added today</b> and this circuit is over {headroom.thresholdPercent} %.
          </>
        ) : (
          <>
            <b>More than {words} today</b> and this circuit is over {headroom.thresholdPercent} %.
          </>
        )}
      </p>
      <Bar glance={glance} headroom={headroom} words={words} />
    </section>
  );
}

/** The scale reaches a good deal beyond the room, and at least the largest of the last additions. */
function Bar({
  glance,
  headroom,
  words,
}: {
  glance: GlanceView;
  headroom: NonNullable<GlanceView['headroom']>;
  words: string;
}) {
  const { unit } = headroom.mass;
  const room = toNumber(exactGrams(headroom.mass)) / GRAMS_PER[unit];
  const largest = Math.max(0, ...glance.additions.items.map((addition) => (addition.grams ?? 0) / GRAMS_PER[unit]));
  const ticks = ticksTo(
    Math.max(room * 1.6, largest, toNumber(exactGrams(glance.fullCharge)) / GRAMS_PER[unit] / 20),
    4,
  );
  const end = ticks.at(-1) ?? 1;
  const share = (value: number): string => `${((value / end) * 100).toFixed(2)}%`;
  return (
    <svg
      className={draw['bar']}
      width="100%"
      height="42"
      role="img"
      aria-label={`Room ${words} of a scale to ${end} ${unit === 'lb-oz' ? 'lb' : unit}`}
    >
      <rect x="0" y="8" width="100%" height="16" className={draw['beyond']} />
      <rect x="0" y="8" width={share(room)} height="16" className={draw['room']} />
      <line x1={share(room)} x2={share(room)} y1="2" y2="30" className={draw['needle']} />
      {ticks.map((value, i) => (
        <text
          key={value}
          x={share(value)}
          y="40"
          textAnchor={i === 0 ? 'start' : i === ticks.length - 1 ? 'end' : 'middle'}
          className={draw['quiet']}
        >
          {value}
          {i === ticks.length - 1 && ` ${unit === 'lb-oz' ? 'lb' : unit}`}
        </text>
      ))}
    </svg>
  );
}
