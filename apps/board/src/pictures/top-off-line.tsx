import { cx } from '../ui/cx.ts';
import { clampShare, dayNumber, pct } from './scales.ts';
import pic from './picture.module.css';

export interface TopOffLineProps {
  /** First and last day of the line. */
  readonly from: string;
  readonly to: string;
  /** The circuit is known since. */
  readonly since: string;
  readonly additions: readonly {
    readonly day: string;
    /** Share of the full charge, 0 to 1; undefined when it was never weighed. */
    readonly share: number | undefined;
    readonly topOff: boolean;
  }[];
}

const GROUND = 32;
const TALL = 26;
const LEAST = 5;
/** A stem of this share stands as tall as the line; more is cut there. */
const FULL = 0.3;

/** Additions on one line of time: a stem as tall as its share of the charge; hollow where it is no top-off. */
export function TopOffLine({ from, to, since, additions }: TopOffLineProps) {
  const [first, last] = [dayNumber(from), dayNumber(to)];
  const at = (day: string): number => clampShare((dayNumber(day) - first) / (last - first));
  const known = at(since);
  return (
    <svg className={pic['picture']} height="36" aria-hidden="true">
      <line className={pic['hair']} x1={pct(0.5)} x2={pct(0.5)} y1="0" y2="36" />
      {known > 0.01 && <rect x="0" y={GROUND - 6} width={pct(known)} height="6" fill="url(#p-off)" />}
      <line className={pic['hair2']} x1="0" x2="100%" y1={GROUND} y2={GROUND} />
      {additions.map(({ day, share, topOff }, i) => {
        const height = LEAST + (TALL - LEAST) * Math.min(1, (share ?? 0.1) / FULL);
        return (
          <svg key={`${day}${i}`} x={pct(at(day))} overflow="visible">
            <line
              className={pic['ink']}
              strokeWidth="1.5"
              strokeDasharray={share === undefined ? '2 2' : undefined}
              y1={GROUND}
              y2={GROUND - height}
            />
            <circle
              className={cx(pic['ink'], topOff ? pic['fillInk'] : pic['sheet'])}
              strokeWidth="1.3"
              cy={GROUND - height}
              r="3.2"
            />
          </svg>
        );
      })}
      <line className={pic['now']} x1="100%" x2="100%" y1="-6" y2="42" />
    </svg>
  );
}
