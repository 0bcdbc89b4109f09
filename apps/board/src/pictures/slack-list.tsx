import type { ReactNode } from 'react';
import { cx } from '../ui/cx.ts';
import { foldedX, LAST_DAY, NEAR_DAYS, percent, slackX } from './slack-axis.ts';
import css from './slack.module.css';
import pic from './picture.module.css';

/** The week the axis shows; every row of circuits and people gets the same. */
export interface SlackWeek {
  /** Names of the seven days from today: "Mon 4". */
  readonly days: readonly string[];
  /** Now, in days from today's midnight, and as words: "09:40". */
  readonly now: number;
  readonly nowText: string;
  /** Indexes of days nobody works by rule. */
  readonly off: readonly number[];
}

/** Day hairlines, days off, the end of the scale and now: behind every row, so that rows make one picture. */
export function SlackGround({ week, now = true }: { week: SlackWeek; now?: boolean }) {
  return (
    <>
      {week.off.map((day) => (
        <rect
          key={day}
          className={pic['wash']}
          opacity=".55"
          x={percent(foldedX(day))}
          width={percent(foldedX(1) - foldedX(0))}
          y="0"
          height="100%"
        />
      ))}
      {Array.from({ length: NEAR_DAYS + 1 }, (_, day) => (
        <line
          key={day}
          className={day === NEAR_DAYS ? pic['hair2'] : pic['hair']}
          {...(day === NEAR_DAYS ? { strokeDasharray: '1 3', strokeWidth: 2 } : {})}
          x1={percent(slackX(day))}
          x2={percent(slackX(day))}
          y1="0"
          y2="100%"
        />
      ))}
      {now && (
        <line className={pic['now']} x1={percent(slackX(week.now))} x2={percent(slackX(week.now))} y1="0" y2="100%" />
      )}
    </>
  );
}

const LATER = [
  [14, '2 wk'],
  [28, '4 wk'],
] as const;

function Head({ week, first, second }: { week: SlackWeek; first: string; second: string }) {
  const hinge = percent(slackX(NEAR_DAYS));
  return (
    <div className={css['head']} aria-hidden="true">
      <span>{first}</span>
      <span>{second}</span>
      <div className={css['scale']}>
        <em style={{ right: `calc(100% - ${percent(slackX(0))} + 6px)` }}>overdue</em>
        <em className={css['wide']} style={{ left: `calc(${percent(slackX(0))} + 4px)` }}>
          to scale: a column is one day, 06 to 18 h; nights folded away
        </em>
        <em className={css['wide']} style={{ left: `calc(${hinge} + 8px)` }}>
          closing up
        </em>
        {[-7, -1].map((day) => (
          <i key={day} data-mid style={{ left: percent(slackX(day)) }}>
            {-day}
            {day === -7 && ' d'}
          </i>
        ))}
        {week.days.map((name, day) => (
          <i
            key={name}
            data-today={day === 0 || undefined}
            style={{ left: percent(slackX(day)), width: percent(foldedX(1) - foldedX(0)) }}
          >
            {name}
            {day === 0 && <span className={css['nowText']}>, {week.nowText}</span>}
          </i>
        ))}
        {LATER.map(([day, text]) => (
          <i key={day} data-mid data-later style={{ left: percent(slackX(day)) }}>
            {text}
          </i>
        ))}
        <i style={{ right: 0 }}>{LAST_DAY / 7} wk</i>
        <svg className={css['hinge']} style={{ left: hinge }} width="10" height="9">
          <path className={pic['ink']} strokeWidth="1.3" d="M0 8.5l5-8 5 8" />
        </svg>
      </div>
    </div>
  );
}

export interface SlackListProps {
  /** Names the list for who cannot see it. */
  readonly label: string;
  readonly week: SlackWeek;
  /** Heads of the two columns of words. */
  readonly first?: string;
  readonly second?: string;
  /** `SlackRow`s or `WeekStrip`s. */
  readonly children: ReactNode;
  /** The lower half repeats no axis: it stands under the upper one. */
  readonly headless?: boolean;
  readonly title?: ReactNode;
}

/** Rows on the one axis of legal time. */
export function SlackList({
  label,
  week,
  first = 'Circuit, duty',
  second = 'Slack',
  children,
  headless = false,
  title,
}: SlackListProps) {
  return (
    <div className={css['list']}>
      {headless ? (
        title !== undefined && <div className={css['band']}>{title}</div>
      ) : (
        <Head week={week} first={first} second={second} />
      )}
      <ul className={cx(css['rows'])} aria-label={label}>
        {children}
      </ul>
    </div>
  );
}
