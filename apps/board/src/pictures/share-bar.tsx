import { cx } from '../ui/cx.ts';
import { pct } from './scales.ts';
import pic from './picture.module.css';

export interface ShareBarProps {
  /** The largest first; shares from 0 to 1 that make up one. */
  readonly parts: readonly { readonly text: string; readonly share: number }[];
  readonly label: string;
}

/** A share too small for its name is drawn without it; the words beside the drawing say all of them. */
const NAMED = 0.12;

/** What a whole is made of: one bar, the largest part darkest. */
export function ShareBar({ parts, label }: ShareBarProps) {
  const placed = parts.map((part, i) => ({
    ...part,
    start: parts.slice(0, i).reduce((sum, { share }) => sum + share, 0),
  }));
  return (
    <svg className={pic['picture']} height="34" role="img" aria-label={label}>
      {placed.map(({ text, share, start }, i) => (
        <g key={text}>
          <rect
            className={cx(pic['fillInk2'], pic['edged'])}
            fillOpacity={1 / (i + 1)}
            x={pct(start)}
            width={pct(share)}
            y="0"
            height="14"
          />
          {share >= NAMED && (
            <text
              className={cx(pic['small'], start + share > 0.9 && start > 0 && pic['end'])}
              x={pct(start + share > 0.9 && start > 0 ? 1 : start)}
              y="28"
            >
              {text}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}
