import { cx } from '../ui/cx.ts';
import { clampShare, pct, ticksTo } from './scales.ts';
import pic from './picture.module.css';

export interface HeadroomBarProps {
  /** How much may still go in today, in `unit`, already rounded down. Zero: the next drop is over. */
  readonly headroom: number;
  readonly unit: string;
  /** The figure as printed: "2.6 lb". */
  readonly text: string;
  /** Where the line will stand on later days, if nothing is added. */
  readonly later?: readonly { readonly text: string; readonly at: number }[];
  /** The least the ruler must reach; it grows for what it shows. */
  readonly atLeast?: number;
  readonly label: string;
}

/** A ruler of mass: green may go in, hatched may not; the needle is where the law's line stands today. */
export function HeadroomBar({ headroom, unit, text, later = [], atLeast = 0, label }: HeadroomBarProps) {
  const reach = Math.max(headroom * 1.5, atLeast, ...later.map((one) => one.at * 1.1));
  const ticks = ticksTo(reach > 0 ? reach : 1);
  const end = ticks.at(-1) ?? 1;
  const share = (mass: number): string => pct(clampShare(mass / end));
  const right = headroom / end > 0.5;
  return (
    <svg className={pic['picture']} height="60" role="img" aria-label={label}>
      <rect
        x={share(headroom)}
        width={pct(1 - headroom / end)}
        y="16"
        height="16"
        fill="url(#p-reserve)"
        stroke="var(--edge)"
      />
      {headroom > 0 && (
        <rect className={cx(pic['fine'], pic['edged'])} x="0" width={share(headroom)} y="18" height="16" />
      )}
      <line className={pic['now']} x1={share(headroom)} x2={share(headroom)} y1="14" y2="40" />
      <text
        className={cx(pic['bold'], right && pic['end'])}
        x={share(headroom)}
        dx={right ? -4 : headroom / end < 0.25 ? 0 : 4}
        y="10"
      >
        today {text}
      </text>
      {later.map((one) => (
        <g key={one.text}>
          <line className={pic['ink']} x1={share(one.at)} x2={share(one.at)} y1="26" y2="39" />
          {(one.at - headroom) / end > 0.22 && (
            <text className={cx(pic['text2'], pic['small'], pic['mid'])} x={share(one.at)} y="10">
              {one.text}
            </text>
          )}
        </g>
      ))}
      {ticks.map((tick, i) => {
        const [first, last] = [i === 0, i === ticks.length - 1];
        return (
          <g key={tick}>
            <line className={pic['hair2']} x1={share(tick)} x2={share(tick)} y1="40" y2="44" />
            <text
              className={cx(pic['text2'], pic['small'], last ? pic['end'] : !first && pic['mid'])}
              x={share(tick)}
              y="55"
            >
              {tick}
              {last && ` ${unit}`}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
