import { cx } from '../ui/cx.ts';
import { clampShare, pct, ticksTo } from './scales.ts';
import pic from './picture.module.css';

export interface OverLimitBarProps {
  readonly value: number;
  readonly limit: number;
  /** Said by the rulebook, not by this drawing: equal is not over. */
  readonly over: boolean;
  readonly valueText: string;
  readonly limitText?: string;
  readonly unit: string;
  /** An earlier value of the same, thin. */
  readonly before?: { readonly value: number; readonly text: string } | undefined;
  readonly label: string;
}

/** A quantity against its limit: the bar passes the line, or stops short of it. */
export function OverLimitBar({
  value,
  limit,
  over,
  valueText,
  limitText = 'limit',
  unit,
  before,
  label,
}: OverLimitBarProps) {
  const ticks = ticksTo(Math.max(value, limit, before?.value ?? 0) * 1.12, 5);
  const end = ticks.at(-1) ?? 1;
  const at = (n: number): string => pct(clampShare(n / end));
  const inside = value / end > 0.82;
  const clash = before !== undefined && Math.abs(before.value - limit) / end < 0.16;
  return (
    <svg className={pic['picture']} height="58" role="img" aria-label={label}>
      <rect className={cx(pic[over ? 'late' : 'fine'], pic['edged'])} x="0" width={at(value)} y="19" height="13" />
      <line className={pic['now']} x1={at(limit)} x2={at(limit)} y1="14" y2="40" />
      <text className={cx(pic['bold'], pic['mid'])} x={at(limit)} y="10">
        {limitText}
      </text>
      {before && (
        <>
          <line className={pic['ink']} strokeWidth="1.2" x1={at(before.value)} x2={at(before.value)} y1="15" y2="36" />
          {!clash && (
            <text className={cx(pic['text2'], pic['small'], pic['mid'])} x={at(before.value)} y="11">
              {before.text}
            </text>
          )}
        </>
      )}
      <text className={cx(pic['bold'], inside && pic['end'])} x={at(value)} dx={inside ? 0 : 6} y={inside ? 10 : 30}>
        {valueText}
      </text>
      <line className={pic['hair2']} x1="0" x2="100%" y1="40.5" y2="40.5" />
      {ticks.map((tick, i) => (
        <g key={tick}>
          <line className={pic['hair2']} x1={at(tick)} x2={at(tick)} y1="40" y2="44" />
          <text
            className={cx(pic['text2'], pic['small'], i === ticks.length - 1 ? pic['end'] : i > 0 && pic['mid'])}
            x={at(tick)}
            y="55"
          >
            {tick}
            {i === ticks.length - 1 && ` ${unit}`}
          </text>
        </g>
      ))}
    </svg>
  );
}
