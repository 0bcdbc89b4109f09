import { cx } from '../ui/cx.ts';
import { decades, logShare, pct } from './scales.ts';
import pic from './picture.module.css';
import css from './range.module.css';

export interface LogRange {
  readonly id: string;
  readonly text: string;
  /** Both above zero, low <= high, in the unit of the line. */
  readonly low: number;
  readonly high: number;
  /** "1.2 to 6". */
  readonly rangeText: string;
  /** The sum of the others. */
  readonly total?: boolean;
}
export interface RangeOnLogProps {
  readonly ranges: readonly LogRange[];
  /** What has gone, as one value on the same line. */
  readonly gone?: { readonly value: number; readonly text: string } | undefined;
  readonly tickText: (value: number) => string;
  readonly label: string;
  readonly empty?: string;
}

const ROW = 20;

/** Leaks found against what has gone, as ranges on one logarithmic line: an estimate is a bar with ends, never a point. */
export function RangeOnLog({ ranges, gone, tickText, label, empty = 'No leak has a size yet.' }: RangeOnLogProps) {
  const values = [...ranges.flatMap(({ low, high }) => [low, high]), ...(gone ? [gone.value] : [])];
  if (values.length === 0) return <p className="quiet">{empty}</p>;
  const line = decades(values);
  const at = (value: number): string => pct(logShare(value, line));
  const foot = ranges.length * ROW + (gone ? 22 : 6);
  const left = gone !== undefined && logShare(gone.value, line) > 0.5;
  return (
    <div className={css['box']}>
      <ul className={css['names']}>
        {ranges.map(({ id, text, rangeText, total }) => (
          <li key={id} data-total={total}>
            <span title={text}>{text}</span>
            <span>{rangeText}</span>
          </li>
        ))}
      </ul>
      <svg className={pic['picture']} height={foot + 18} role="img" aria-label={label}>
        {line.lines.map((value, i) => (
          <g key={value}>
            <line className={pic['hair']} x1={at(value)} x2={at(value)} y1="0" y2={foot} />
            <text
              className={cx(pic['text2'], pic['small'], i === line.lines.length - 1 ? pic['end'] : i > 0 && pic['mid'])}
              x={at(value)}
              y={foot + 13}
            >
              {tickText(value)}
            </text>
          </g>
        ))}
        {ranges.map(({ id, low, high, total }, i) => (
          <rect
            key={id}
            className={pic[total ? 'fillInk2' : 'fillRule2']}
            stroke="var(--ink)"
            x={at(low)}
            width={pct(Math.max(0.008, logShare(high, line) - logShare(low, line)))}
            y={i * ROW + 6}
            height="8"
          />
        ))}
        {gone && (
          <>
            <line className={pic['now']} x1={at(gone.value)} x2={at(gone.value)} y1="0" y2={foot} />
            <text
              className={cx(pic['bold'], pic['halo'], left && pic['end'])}
              x={at(gone.value)}
              dx={left ? -5 : 5}
              y={foot - 5}
            >
              {gone.text}
            </text>
          </>
        )}
      </svg>
    </div>
  );
}
