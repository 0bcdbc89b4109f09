import { useId } from 'react';
import { cx } from '../ui/cx.ts';
import { cylinderShape, levelY, spread, type CylinderShape } from './cylinder-shape.ts';
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
  readonly labels?: {
    readonly ullage?: string;
    readonly ullageNote?: string;
    readonly room?: string;
    readonly figure?: string;
    readonly notes?: readonly string[];
    readonly empty?: string;
  };
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

function Inside({ shape, liquid, limit, hot, labels = {} }: CylinderSectionProps & { shape: CylinderShape }) {
  const middle = shape.x + shape.width / 2;
  const level = levelY(shape, liquid ?? 0);
  const top = levelY(shape, hot ?? liquid ?? 0);
  const line = limit === undefined ? undefined : levelY(shape, limit);
  const ullageY = (shape.top + Math.min(line ?? top, top)) / 2 + 8;
  const body = level + (shape.bottom - level) * 0.46;
  const notesFit = (labels.notes ?? []).filter((_, i) => body + 19 + i * 17 < shape.bottom - 8);
  return (
    <>
      {liquid !== undefined && labels.ullage && ullageY < top - 4 && (
        <text className={cx(css['mid'], css['large'], css['bold'])} x={middle} y={ullageY}>
          {labels.ullage}
        </text>
      )}
      {liquid !== undefined && labels.ullageNote && ullageY + 15 < (line ?? top) && (
        <text className={cx(css['mid'], css['text2'])} x={middle} y={ullageY + 15}>
          {labels.ullageNote}
        </text>
      )}
      {labels.room && line !== undefined && top - line > 24 && (
        <text className={cx(css['mid'], css['large'], css['bold'])} x={middle} y={(line + top) / 2 + 5}>
          {labels.room}
        </text>
      )}
      {labels.figure && shape.bottom - level > 44 && (
        <text className={cx(css['fig'], css['mid'], css['onInk'])} x={middle} y={body}>
          {labels.figure}
        </text>
      )}
      {notesFit.map((note, i) => (
        <text key={note} className={cx(css['mid'], css['onInk'])} x={middle} y={body + 19 + i * 17}>
          {note}
        </text>
      ))}
      {liquid === undefined && labels.empty && (
        <text className={cx(css['mid'], css['large'])} x={middle} y={(shape.top + shape.bottom) / 2}>
          {labels.empty}
        </text>
      )}
    </>
  );
}

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
  const { liquid, limit, hot, doubt, marks = [], label, height = 404 } = props;
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
      <Inside {...props} shape={shape} />
    </svg>
  );
}
