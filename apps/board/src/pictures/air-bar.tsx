import { cx } from '../ui/cx.ts';
import { pct, ticksTo } from './scales.ts';
import pic from './picture.module.css';

export interface AirBarProps {
  readonly excessKpa: number;
  readonly sigmaKpa: number;
  readonly limitKpa: number;
  readonly purityKpa: number;
  readonly tone: 'fine' | 'late' | 'soon' | 'wash';
  readonly label: string;
}

/** Free at both ends, so that no end of the bar and no figure is cut. */
const MARGIN = 0.05;

/** What was read above saturation, with two sigma to each side, against the shop limit; what lies beyond it is hatched. */
export function AirBar({ excessKpa, sigmaKpa, limitKpa, purityKpa, tone, label }: AirBarProps) {
  const [low, high] = [excessKpa - 2 * sigmaKpa, excessKpa + 2 * sigmaKpa];
  const ticks = ticksTo(Math.max(high, limitKpa) * 1.1, 4);
  const start = Math.min(0, low);
  const end = ticks.at(-1) ?? 1;
  const share = (kpa: number): number => MARGIN + ((kpa - start) / (end - start)) * (1 - 2 * MARGIN);
  const at = (kpa: number): string => pct(share(kpa));
  // The name stands on the side that has room for it.
  const isRight = share(limitKpa) > 0.4;
  return (
    <svg className={pic['picture']} height="94" role="img" aria-label={label}>
      <rect className={pic['wash']} x="0" width={at(limitKpa)} y="30" height="32" />
      <rect fill="url(#p-reserve)" x={at(limitKpa)} width={pct(1 - share(limitKpa))} y="30" height="32" />
      <rect
        className={cx(pic[tone], pic['edged'])}
        x={at(low)}
        width={pct(share(high) - share(low))}
        y="40"
        height="12"
      />
      <circle className={pic['fillInk']} cx={at(excessKpa)} cy="46" r="4" />
      <line className={pic['ink']} strokeDasharray="3 2" x1={at(purityKpa)} x2={at(purityKpa)} y1="14" y2="66" />
      <text className={cx(pic['small'], pic['text2'])} x={at(purityKpa)} y="10">
        purity limit, {purityKpa.toFixed(0)}
      </text>
      <line className={pic['now']} x1={at(limitKpa)} x2={at(limitKpa)} y1="27" y2="66" />
      <text
        className={cx(pic['bold'], isRight && pic['end'], pic['halo'])}
        x={at(limitKpa)}
        dx={isRight ? 4 : -4}
        y="24"
      >
        shop limit, {limitKpa.toFixed(0)}
      </text>
      <line className={pic['hair2']} x1="0" x2="100%" y1="70.5" y2="70.5" />
      {ticks.map((tick, i) => (
        <g key={tick}>
          <line className={pic['hair2']} x1={at(tick)} x2={at(tick)} y1="70" y2="74" />
          <text
            className={cx(pic['text2'], pic['small'], pic[i === ticks.length - 1 ? 'end' : 'mid'])}
            x={at(tick)}
            dx={i === ticks.length - 1 ? 12 : 0}
            y="86"
          >
            {tick}
            {i === ticks.length - 1 && ' kPa'}
          </text>
        </g>
      ))}
    </svg>
  );
}
