import { cx } from '../ui/cx.ts';
import { clampShare, pct, ticksTo } from './scales.ts';
import pic from './picture.module.css';

export interface Rate {
  readonly perYear: number;
  readonly lowerPerYear: number;
  readonly upperPerYear: number;
}
/** Round steps up to what all counts need; an interval that reaches further breaks off at the end. */
export function rateTicks(rates: readonly Rate[]): readonly number[] {
  const most = Math.max(2, ...rates.map(({ perYear }) => perYear * 1.5));
  return ticksTo(Math.min(most, 24), 6);
}
interface OnAxis {
  readonly ticks: readonly number[];
}
const shareOn = (value: number, ticks: readonly number[]): number => clampShare(value / (ticks.at(-1) ?? 1));

export function RateAxis({ ticks }: OnAxis) {
  return (
    <svg className={pic['picture']} height="14" aria-hidden="true">
      {ticks.map((tick, i) => (
        <text
          key={tick}
          className={cx(pic['text2'], pic['small'], i === ticks.length - 1 ? pic['end'] : i > 0 && pic['mid'])}
          x={pct(shareOn(tick, ticks))}
          y="11"
        >
          {tick}
        </text>
      ))}
    </svg>
  );
}

/** The interval as a bar with ends, the plain count as a tick, the fleet dashed behind. */
export function RateBar({ rate, fleet, ticks }: OnAxis & { rate: Rate; fleet: number | undefined }) {
  const [from, to] = [shareOn(rate.lowerPerYear, ticks), shareOn(rate.upperPerYear, ticks)];
  const cut = rate.upperPerYear > (ticks.at(-1) ?? 1);
  return (
    <svg className={pic['picture']} height="36" aria-hidden="true">
      {ticks.map((tick) => (
        <line
          key={tick}
          className={pic['hair']}
          x1={pct(shareOn(tick, ticks))}
          x2={pct(shareOn(tick, ticks))}
          y1="-6"
          y2="42"
        />
      ))}
      {fleet !== undefined && (
        <line
          className={pic['ink']}
          strokeDasharray="3 3"
          x1={pct(shareOn(fleet, ticks))}
          x2={pct(shareOn(fleet, ticks))}
          y1="-6"
          y2="42"
        />
      )}
      <rect className={cx(pic['fillRule2'], pic['edged'])} x={pct(from)} width={pct(to - from)} y="14" height="8" />
      {cut && (
        <svg x="100%" overflow="visible">
          <path className={pic['sheet']} d="M-9 10l-4 16h4l4-16z" />
        </svg>
      )}
      <line
        className={pic['ink']}
        strokeWidth="2.5"
        x1={pct(shareOn(rate.perYear, ticks))}
        x2={pct(shareOn(rate.perYear, ticks))}
        y1="9"
        y2="27"
      />
    </svg>
  );
}
