import type { ReactNode } from 'react';
import type { Mark } from '../ui/marks.tsx';
import { MarkAt, State } from '../ui/state.tsx';
import { cx } from '../ui/cx.ts';
import { AXIS_PX, percent, slackParts, slackX, type SlackLane, type SlackParts } from './slack-axis.ts';
import { SlackGround, type SlackWeek } from './slack-list.tsx';
import css from './slack.module.css';
import pic from './picture.module.css';

export type SlackState = 'late' | 'soon' | 'hold' | 'fine' | 'live';
export interface SlackPlaced {
  /** When, in days from today's midnight. */
  readonly at: number;
  readonly mark: Mark;
  /** Whose it is, short. */
  readonly text: string;
}
export interface SlackRowProps {
  readonly week: SlackWeek;
  readonly lane: SlackLane;
  readonly state: SlackState;
  /** Id and place; may be a link. */
  readonly name: ReactNode;
  readonly duty: ReactNode;
  /** The printed figure, in true hours: `2 d 9 h over`. */
  readonly slackText: string;
  /** The legal edge is not certain yet. */
  readonly provisional?: boolean;
  readonly placed?: SlackPlaced | undefined;
  /** A moment on offer: dashed. */
  readonly offered?: SlackPlaced | undefined;
  /** What it waits for: "the part, Thu noon; then 7 h". */
  readonly waitText?: string | undefined;
  readonly selected?: boolean;
  /** Everything the drawing says, in a sentence. */
  readonly label: string;
}

const MIDDLE = 13;
const HEAVY: ReadonlySet<SlackState> = new Set(['late', 'soon', 'hold']);

function Bar({ x, width, half, ...rest }: BarProps) {
  return <rect {...rest} x={percent(x)} width={percent(width)} y={MIDDLE - half} height={half * 2} />;
}
interface BarProps {
  readonly x: number;
  readonly width: number;
  readonly half: number;
  readonly className?: string | undefined;
  readonly fill?: string;
  readonly stroke?: string;
  readonly strokeDasharray?: string | undefined;
}

function Needle({ x, dashed = false }: { x: number; dashed?: boolean }) {
  const at = percent(x);
  return (
    <line
      className={pic['now']}
      x1={at}
      x2={at}
      y1={MIDDLE - 12}
      y2={MIDDLE + 12}
      strokeDasharray={dashed ? '4 2.5' : undefined}
    />
  );
}

function Opening({ x }: { x: number }) {
  return (
    <svg x={percent(x)} overflow="visible">
      <path className={pic['ink']} strokeWidth="1.3" d={`M4 ${MIDDLE - 8.5}H0V${MIDDLE + 8.5}H4`} />
    </svg>
  );
}

function Eaten({ parts }: { parts: Extract<SlackParts, { is: 'open' }> }) {
  return (
    <>
      <Bar {...parts.reserve} half={4.5} fill="url(#p-reserve)" />
      <Bar {...parts.work} half={4.5} className={pic['fillInk2']} />
      <Bar {...parts.drive} half={1} className={pic['fillInk2']} />
      {parts.wait && (
        <>
          <line
            className={pic['ink']}
            strokeDasharray="2 3"
            x1={percent(parts.wait.x)}
            x2={percent(parts.slack.x)}
            y1={MIDDLE}
            y2={MIDDLE}
          />
          <line
            className={pic['ink']}
            x1={percent(parts.slack.x)}
            x2={percent(parts.slack.x)}
            y1={MIDDLE - 8}
            y2={MIDDLE + 8}
          />
        </>
      )}
    </>
  );
}

function Lane({ parts, state, provisional }: { parts: SlackParts; state: SlackState; provisional: boolean }) {
  const trough = (
    <Bar
      {...parts.trough}
      half={8}
      className={pic['wash']}
      stroke="var(--rule-2)"
      strokeDasharray={provisional ? '3 2' : undefined}
    />
  );
  if (parts.is === 'overdue')
    return (
      <>
        {trough}
        <Bar {...parts.over} half={4.5} fill="url(#p-late)" />
        <Needle x={parts.edge} />
      </>
    );
  const heavy = HEAVY.has(state);
  const fill = cx(pic[state === 'live' ? 'fine' : state], heavy && pic['edged']);
  return (
    <>
      {trough}
      {parts.opening !== undefined && <Opening x={parts.opening} />}
      {parts.is === 'open' && <Eaten parts={parts} />}
      <Bar {...parts.slack} half={heavy ? 4.5 : 2} className={fill} />
      {parts.is === 'far' &&
        [0, 1, 2].map((i) => (
          <Bar
            key={i}
            x={parts.slack.x + parts.slack.width + 3 + i * 11}
            width={7 - i * 2}
            half={heavy ? 4.5 : 2}
            className={fill}
          />
        ))}
      {parts.is === 'open' && <Needle x={parts.edge} dashed={provisional} />}
    </>
  );
}

function Visit({ at, mark, text, strong = false }: SlackPlaced & { strong?: boolean }) {
  const x = percent(slackX(at));
  const right = slackX(at) > AXIS_PX * 0.8;
  return (
    <>
      <MarkAt mark={mark} x={x} y={MIDDLE} dx={5} size={13} />
      <svg x={x} overflow="visible">
        <text
          className={cx(pic['halo'], strong && pic['bold'], right && pic['end'])}
          x={right ? 12 : -1}
          y={MIDDLE + 19}
        >
          {text}
        </text>
      </svg>
    </>
  );
}

/** One circuit's duty on the axis: its lawful window, what is left of it, and who goes when. */
export function SlackRow(props: SlackRowProps) {
  const { week, lane, state, provisional = false, placed, offered, waitText, selected } = props;
  const parts = slackParts(lane);
  return (
    <li className={css['row']} data-selected={selected || undefined} aria-current={selected || undefined}>
      <div className={css['name']}>
        <p>{props.name}</p>
        <p className={css['sub']}>{props.duty}</p>
      </div>
      <div className={css['state']}>
        <State mark={state} />
        <p className={css['sub']}>{props.slackText}</p>
      </div>
      <div className={css['lane']}>
        <svg className={cx(pic['picture'], css['bars'])} role="img" aria-label={props.label}>
          <SlackGround week={week} />
          <Lane parts={parts} state={state} provisional={provisional} />
          {waitText !== undefined && parts.is === 'open' && parts.wait && (
            <svg x={percent(parts.slack.x)} overflow="visible">
              <text className={cx(pic['halo'], pic['end'], css['wide'])} x={-6} y={MIDDLE + 19}>
                {waitText}
              </text>
            </svg>
          )}
          {placed && <Visit {...placed} />}
          {offered && <Visit {...offered} strong />}
        </svg>
      </div>
    </li>
  );
}
