import { dayWords } from '@ullage/units';
import type { ReactNode } from 'react';
import { cx } from '../ui/cx.ts';
import type { LifeAddition, LossPoint, LossSlope } from './life.ts';
import { pct, ticksTo } from './scales.ts';
import type { ShareOf } from './scales.ts';
import css from './life.module.css';
import pic from './picture.module.css';

interface LaneProps {
  readonly share: ShareOf;
  readonly unit: string;
  readonly ground: ReactNode;
  readonly today: string;
}

const ZERO = 8;
const DEEP = 74;
const CLOSE = 0.035;

/** A drop whose tip hangs from the thread; filled for a top-off, hollow for an addition at a repair. */
function Drop({ y, full }: { y: number; full: boolean }) {
  const s = 5;
  return (
    <path
      d={`M0 ${y - s * 1.5}C${s * 0.9} ${y - s * 0.5} ${s} ${y} ${s} ${y + s * 0.25}A${s} ${s} 0 0 1 ${-s} ${y + s * 0.25}C${-s} ${y} ${-s * 0.9} ${y - s * 0.5} 0 ${y - s * 1.5}Z`}
      fill={full ? 'var(--ink)' : 'var(--sheet)'}
      stroke="var(--ink)"
      strokeWidth="1.5"
    />
  );
}

/** Dotted lines at round masses, from the left end to today. */
function Ruler({ ticks, y, width }: { ticks: readonly number[]; y: (mass: number) => number; width: string }) {
  return ticks.map((tick) => (
    <g key={tick}>
      <line
        className={pic[tick > 0 ? 'hair' : 'ink']}
        strokeDasharray={tick > 0 ? '1 3' : undefined}
        x1="0"
        x2={width}
        y1={y(tick)}
        y2={y(tick)}
      />
      <text className={cx(pic['text2'], pic['small'], pic['end'])} x="-5" y={y(tick) + 4}>
        {tick}
      </text>
    </g>
  ));
}

function words(additions: readonly LifeAddition[], unit: string): string {
  if (additions.length === 0) return 'No addition recorded.';
  return additions
    .map(
      ({ day, mass, atRepair }) =>
        `${dayWords(day)}: ${mass === undefined ? 'mass unknown' : `${mass} ${unit}`}${atRepair ? ', at a repair' : ''}`,
    )
    .join('; ');
}

/** Gas added: a drop hangs as far down as it is heavy. One of unknown mass hangs from a broken thread. */
export function GasLane({ additions, share, unit, ground, today }: LaneProps & { additions: readonly LifeAddition[] }) {
  const sorted = [...additions].sort((a, b) => share(a.day) - share(b.day));
  const ticks = ticksTo(Math.max(1, ...sorted.map((one) => one.mass ?? 0)), 2);
  const end = ticks.at(-1) ?? 1;
  const y = (mass: number): number => ZERO + (mass / end) * (DEEP - ZERO);
  return (
    <svg className={pic['picture']} height="98" role="img" aria-label={words(sorted, unit)}>
      {ground}
      <Ruler ticks={ticks} y={y} width={pct(share(today))} />
      {sorted.length === 0 && (
        <text className={cx(pic['text2'], pic['halo'])} x="8" y="32">
          No addition recorded.
        </text>
      )}
      {sorted.map(({ day, mass, atRepair }, i) => {
        const next = sorted[i + 1];
        const after = share(next?.day ?? today) - share(day);
        const left = after >= 0 && after < CLOSE;
        const at = y(mass ?? end * 0.5);
        return (
          <svg key={`${day}${i}`} x={pct(share(day))} overflow="visible">
            <line
              className={pic['ink']}
              strokeWidth="1.5"
              strokeDasharray={mass === undefined ? '2 2' : undefined}
              x1="0"
              x2="0"
              y1={ZERO}
              y2={at - 7}
            />
            <Drop y={at} full={!atRepair} />
            <text
              className={cx(pic['bold'], pic['halo'], css['beside'], left && pic['end'])}
              x={left ? -10 : 10}
              y={at + 4}
            >
              {mass ?? '?'}
            </text>
            <text className={cx(pic['bold'], pic['halo'], pic['mid'], css['below'])} y={at + 19}>
              {mass ?? '?'}
            </text>
          </svg>
        );
      })}
    </svg>
  );
}

const TALL = 128;
const ROOF = 30;

function Curve({ points, share, y }: { points: readonly LossPoint[]; share: ShareOf; y: (total: number) => number }) {
  const path = points
    .map((point) => `${Math.round(share(point.day) * 1e5) / 100} ${Math.round(y(point.total) * 100) / 100}`)
    .join('L');
  const end = share(points.at(-1)?.day ?? 0) * 1000;
  return (
    <svg width="100%" height={TALL} viewBox={`0 0 1000 ${TALL}`} preserveAspectRatio="none">
      <path className={pic['wash']} d={`M${path}L${end} ${y(0)}Z`} />
      <path className={pic['ink']} strokeWidth="2" vectorEffect="non-scaling-stroke" d={`M${path}`} />
    </svg>
  );
}

function Rates({ slopes, share, unit, y, lastBelow }: RatesProps) {
  const shown = slopes.filter((slope) => share(slope.toDay) - share(slope.fromDay) > 0.025);
  const widest = Math.max(...shown.map((slope) => slope.toDay - slope.fromDay));
  const named = shown.find((slope) => slope.toDay - slope.fromDay === widest);
  return shown.map((slope, i) => {
    const below = lastBelow && i === shown.length - 1;
    return (
      <text
        key={slope.toDay}
        className={cx(pic['halo'], !below && pic['end'])}
        x={pct((share(slope.fromDay) + share(slope.toDay)) / 2)}
        dx={below ? 7 : -6}
        y={y(slope.middle) + (below ? 14 : -6)}
      >
        {Math.round(slope.perYear)}
        {slope === named && ` ${unit} a year`}
      </text>
    );
  });
}
interface RatesProps {
  readonly slopes: readonly LossSlope[];
  readonly share: ShareOf;
  readonly unit: string;
  readonly y: (mass: number) => number;
  /** The text of the total stands above the last slope: its rate goes under the curve. */
  readonly lastBelow: boolean;
}

function TotalText({ text, x, y, left }: { text: string | undefined; x: number; y: number; left: boolean }) {
  if (text === undefined) return null;
  return (
    <text
      className={cx(pic['bold'], pic['halo'], left && pic['end'])}
      x={pct(x)}
      dx={left ? -6 : 8}
      y={y - (left ? 17 : 7)}
    >
      {text}
    </text>
  );
}

/** What has gone in all: straight between fills, because only a fill measures, and dashed after the last. */
export function LossLane({ points, slopes, share, ground, unit, today, text }: LossLaneProps) {
  const total = points.at(-1)?.total ?? 0;
  const ticks = ticksTo(Math.max(1, total), 4);
  const end = ticks.at(-1) ?? 1;
  const y = (mass: number): number => TALL - 6 - (mass / end) * (TALL - 6 - ROOF);
  const last = share(points.at(-1)?.day ?? 0);
  const left = last > 0.75;
  const label = `${total} ${unit} gone in all by the last fill. ${text ?? ''}`;
  return (
    <svg className={pic['picture']} height={TALL} role="img" aria-label={label}>
      <Ruler ticks={ticks} y={y} width={pct(share(today))} />
      {points.length > 1 && <Curve points={points} share={share} y={y} />}
      {ground}
      {points.length > 1 && (
        <line className={pic['ink']} strokeDasharray="3 3" x1={pct(last)} x2="100%" y1={y(total)} y2={y(total)} />
      )}
      {points.slice(1).map((point) => (
        <circle key={point.day} className={pic['fillInk']} cx={pct(share(point.day))} cy={y(point.total)} r="2.6" />
      ))}
      <Rates slopes={slopes} share={share} unit={unit} y={y} lastBelow={left && text !== undefined} />
      <TotalText text={text} x={last} y={y(total)} left={left} />
    </svg>
  );
}
type LossLaneProps = LaneProps & {
  readonly points: readonly LossPoint[];
  readonly slopes: readonly LossSlope[];
  readonly text?: string | undefined;
};
