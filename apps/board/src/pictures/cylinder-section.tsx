import { useId } from 'react';
import { cx } from '../ui/cx.ts';
import { cylinderShape, insideLabels, levelY, spread, type CylinderShape, type InsideTexts } from './cylinder-shape.ts';
import css from './picture.module.css';

export interface LevelMark {
  /** Share of the volume. */
  readonly at: number;
  readonly text: string;
  readonly note?: string;
}
export interface CylinderSectionProps {
  /** Share of the volume that is liquid now; undefined for an empty cylinder. */
  readonly liquid?: number | undefined;
  /** Share at the legal fill. */
  readonly limit?: number | undefined;
  /** Share at the reference temperature: what these contents will need on a hot day. */
  readonly hot?: number | undefined;
  /** Gas of doubtful purity: its vapour is dotted. */
  readonly doubt?: boolean;
  readonly labels?: InsideTexts;
  /** Levels named beside the cylinder. */
  readonly marks?: readonly LevelMark[];
  /** What the picture says, for who cannot see it. */
  readonly label: string;
  readonly height?: number;
}

const GAP = 34;

function Marks({ shape, marks }: { shape: CylinderShape; marks: readonly LevelMark[] }) {
  const edge = shape.x + shape.width;
  const ys = marks.map((mark) => levelY(shape, mark.at));
  const at = spread(ys, GAP);
  return marks.map((mark, i) => (
    <g key={mark.text}>
      <path className={css['ink']} d={`M${edge} ${ys[i]}h10L${edge + 18} ${at[i]}h6`} />
      <text className={css['large']} x={edge + 29} y={(at[i] ?? 0) + 2}>
        {mark.text}
      </text>
      {mark.note && (
        <text className={css['text2']} x={edge + 29} y={(at[i] ?? 0) + 17}>
          {mark.note}
        </text>
      )}
    </g>
  ));
}

const LABEL = {
  name: cx(css['mid'], css['large'], css['bold'], css['halo']),
  note: cx(css['mid'], css['text2']),
  figure: cx(css['mid'], css['fig'], css['onInk']),
  dark: cx(css['mid'], css['onInk']),
} as const;

function Contents({
  shape,
  liquid,
  hot,
  doubt = false,
  clip,
}: {
  shape: CylinderShape;
  liquid: number;
  hot: number | undefined;
  doubt?: boolean | undefined;
  clip: string;
}) {
  const { x, width, top, bottom } = shape;
  const level = levelY(shape, liquid);
  const hotLevel = levelY(shape, Math.max(hot ?? liquid, liquid));
  return (
    <g clipPath={`url(#${clip})`}>
      <rect className={css['fillInk2']} x={x} y={level} width={width} height={bottom - level} />
      {hotLevel < level && <rect x={x} y={hotLevel} width={width} height={level - hotLevel} fill="url(#p-reserve)" />}
      {doubt && <rect x={x} y={top} width={width} height={hotLevel - top} fill="url(#p-doubt)" />}
      <path className={css['now']} d={`M${x} ${level}h${width}`} />
    </g>
  );
}

/** The thing itself, cut open: liquid, what it grows to in the heat, the legal fill, and the ullage above. */
export function CylinderSection(props: CylinderSectionProps) {
  const { liquid, limit, hot, doubt, marks = [], labels = {}, label, height = 404 } = props;
  const clip = useId();
  const shape = cylinderShape(height);
  const { x } = shape;
  const width = shape.x + shape.width + (marks.length > 0 ? 184 : 20);
  const line = limit === undefined ? undefined : levelY(shape, limit);
  return (
    <svg
      className={css['picture']}
      viewBox={`0 0 ${width} ${height + 4}`}
      style={{ maxWidth: width }}
      role="img"
      aria-label={label}
    >
      <defs>
        <clipPath id={clip}>
          <path d={shape.body} />
        </clipPath>
      </defs>
      <path className={css['ink']} strokeWidth="1.6" d={shape.valve + shape.foot} />
      <path className={css['raised']} d={shape.body} />
      {liquid !== undefined && <Contents shape={shape} liquid={liquid} hot={hot} doubt={doubt} clip={clip} />}
      {line !== undefined && <path className={css['now']} d={`M${x} ${line}h${shape.width + 10}`} />}
      <path className={css['ink']} strokeWidth="2" d={shape.body} />
      <Marks shape={shape} marks={marks} />
      {insideLabels(shape, props, labels).map(({ kind, text, y }) => (
        <text key={text} className={LABEL[kind]} x={x + shape.width / 2} y={y}>
          {text}
        </text>
      ))}
    </svg>
  );
}
