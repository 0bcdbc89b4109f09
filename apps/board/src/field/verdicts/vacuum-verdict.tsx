'use client';
import { fromKelvin, fromKpa } from '@ullage/units';
import { PRESSURE_WORDS } from '../../lib/pressure-words.ts';
import { ticksTo } from '../../pictures/scales.ts';
import { Shape } from '../../ui/state.tsx';
import type { Typed } from '../check.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import { Reasons } from './reasons.tsx';
import { vacuumSum, type HoldSum } from './vacuum-sum.ts';
import css from '../parts/step.module.css';
import draw from '../parts/drawings.module.css';

const SAYS = {
  tight: { mark: 'under', title: 'Tight' },
  leak: { mark: 'over', title: 'Air comes in' },
  moisture: { mark: 'unsure', title: 'Water, or gas from the oil' },
  'cannot-tell': { mark: 'unsure', title: 'The readings cannot tell' },
} as const;
/** Common practice, in microns: below the first before the hold, below the second after it. */
const LINES = [500, 1000] as const;
const MICRON_PA = 101.325 / 760;

interface VacuumVerdictProps {
  readonly readings: readonly { readonly minutes: string; readonly vacuum: Typed }[];
}

/** What the hold says so far and its curve, while it is read; the result stays the technician's. */
export function VacuumVerdict({ readings }: VacuumVerdictProps) {
  const { view } = useVisit();
  const { temperature } = useUnits();
  const sum = vacuumSum(readings, view.site.barometerKpa);
  if (!sum) return null;
  const { hold } = sum;
  const { mark, title } = SAYS[hold.verdict];
  const wet = hold.wetSpotTemperatureK;
  return (
    <section className={css['card']} aria-label="What the hold says" aria-live="polite">
      <h2>
        <Shape mark={mark} size={15} />
        {title}
      </h2>
      <HoldCurve sum={sum} />
      {hold.reasons.slice(0, 1).map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
      {wet !== null && (
        <p>
          Water would be at {fromKelvin(wet, temperature).toFixed(0).replace('-', '\u2212')} °
          {temperature === 'F' ? 'F' : 'C'}: look for the coldest spot.
        </p>
      )}
      <Reasons reasons={hold.reasons.slice(1)} />
    </section>
  );
}

const [WIDTH, HEIGHT, FOOT, TOP] = [320, 150, 22, 16];

/** Vacuum over minutes: a leak climbs straight on, water levels off. */
function HoldCurve({ sum: { points, hold } }: { sum: HoldSum }) {
  const { vacuum } = useUnits();
  const shown = (pa: number): number => fromKpa(pa / 1000, vacuum, 0);
  const limits = LINES.map((microns) => shown(microns * MICRON_PA));
  const tops = ticksTo(Math.max(...points.map(({ pa }) => shown(pa)), (limits[1] ?? 0) * 1.1), 4);
  const times = ticksTo(Math.max(points.at(-1)?.minutes ?? 0, 1), 5);
  const [top, last] = [tops.at(-1) ?? 1, times.at(-1) ?? 1];
  const x = (minutes: number): number => (minutes / last) * (WIDTH - 12) + 6;
  const y = (value: number): number => HEIGHT - FOOT - (value / top) * (HEIGHT - FOOT - TOP);
  const said = points.map(({ minutes, pa }) => `${shown(pa).toFixed(0)} after ${minutes} min`).join(', ');
  return (
    <svg
      className={draw['line']}
      width="100%"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`${PRESSURE_WORDS[vacuum]}: ${said}. ${SAYS[hold.verdict].title}.`}
    >
      <line x1="6" x2={WIDTH - 6} y1={y(0)} y2={y(0)} className={draw['ink']} />
      {limits.map((limit) => (
        <g key={limit}>
          <line x1="6" x2={WIDTH - 6} y1={y(limit)} y2={y(limit)} className={draw['hair']} strokeDasharray="4 3" />
          <text x={WIDTH - 6} y={y(limit) - 3} textAnchor="end" className={draw['quiet']}>
            {limit.toFixed(0)}
          </text>
        </g>
      ))}
      <text x="6" y="11" className={draw['quiet']}>
        {PRESSURE_WORDS[vacuum]}, to {top}
      </text>
      <polyline
        points={points.map(({ minutes, pa }) => `${x(minutes)},${y(shown(pa))}`).join(' ')}
        className={draw['curve']}
      />
      {points.map(({ minutes, pa }) => (
        <circle key={minutes} cx={x(minutes)} cy={y(shown(pa))} r="4" className={draw['held']} />
      ))}
      {times.map((minutes, i) => (
        <text
          key={minutes}
          x={x(minutes)}
          y={HEIGHT - 6}
          textAnchor={i === 0 ? 'start' : i === times.length - 1 ? 'end' : 'middle'}
          className={draw['quiet']}
        >
          {minutes}
          {i === times.length - 1 && ' min'}
        </text>
      ))}
    </svg>
  );
}
