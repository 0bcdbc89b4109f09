import type { Route } from 'next';
import Link from 'next/link';
import type { CSSProperties, ReactNode } from 'react';
import { Shape } from '../ui/state.tsx';
import type { Mark } from '../ui/marks.tsx';
import { cx } from '../ui/cx.ts';
import { foldedX, NEAR_DAYS, percent, slackX } from './slack-axis.ts';
import { SlackGround, type SlackWeek } from './slack-list.tsx';
import css from './slack.module.css';
import pic from './picture.module.css';

export interface StripVisit {
  readonly id: string;
  /** Index of the day from today, and hours of that day. */
  readonly day: number;
  readonly fromHour: number;
  readonly toHour: number;
  /** `done` keeps its place in the bar and loses its line; `offer` and `refused` are proposals. */
  readonly mark: Mark;
  /** "09:30 Wicket"; empty where the drawing alone says it. */
  readonly text: string;
  readonly note?: string;
  readonly driveHours?: number;
  /** Where the visit itself stands; a proposal is nowhere yet. */
  readonly href?: Route;
  /** What a screen reader is told beside the text: the day, the circuit, the site, its state. */
  readonly spoken?: string;
}
export interface WeekStripProps {
  readonly week: SlackWeek;
  /** Whose week it is, for what is dropped on it. */
  readonly personId: string;
  readonly name: ReactNode;
  /** Certificate, or what they are. */
  readonly note: ReactNode;
  readonly freeText: string;
  readonly freeNote?: string;
  /** The person's hours each day; undefined where they do not work, with the reason. */
  readonly hours: readonly ({ readonly from: number; readonly to: number } | { readonly off: string } | undefined)[];
  readonly visits: readonly StripVisit[];
  /** Free hours of the weeks after. */
  readonly later?: readonly { readonly text: string; readonly free: string }[];
  readonly label: string;
}

const TOP = 7.5;
const HIGH = 9;
const hourX = (day: number, hour: number): number => foldedX(day + Math.min(1, Math.max(0, (hour - 6) / 12)));

const FILL: Partial<Record<Mark, string>> = {
  done: 'fillRule2',
  live: 'live',
  hold: 'hold',
  offer: 'raised',
  refused: 'raised',
};
const PROPOSED: ReadonlySet<Mark> = new Set(['offer', 'refused']);

function Taken({ visit }: { visit: StripVisit }) {
  const { day, fromHour, toHour, mark, driveHours = 0 } = visit;
  const x = hourX(day, fromHour);
  const proposed = PROPOSED.has(mark);
  return (
    <>
      {driveHours > 0 && (
        <rect
          className={pic['fillInk2']}
          x={percent(hourX(day, fromHour - driveHours))}
          width={percent(x - hourX(day, fromHour - driveHours))}
          y={TOP + 3.5}
          height="2"
        />
      )}
      <rect
        className={pic[FILL[mark] ?? 'fillInk2']}
        x={percent(x)}
        width={percent(Math.max(2, hourX(day, toHour) - x))}
        y={proposed ? TOP - 1.5 : TOP}
        height={proposed ? HIGH + 3 : HIGH}
        stroke={proposed ? 'var(--ink)' : 'var(--mark)'}
        strokeWidth={proposed ? 1.3 : 0.6}
        strokeDasharray={mark === 'offer' ? '2 1.5' : undefined}
      />
    </>
  );
}

function Day({ day, hours }: { day: number; hours: WeekStripProps['hours'][number] }) {
  if (!hours) return null;
  if ('off' in hours)
    return (
      <rect
        x={percent(foldedX(day))}
        width={percent(foldedX(1) - foldedX(0))}
        y={TOP - 0.5}
        height={HIGH + 1}
        fill="url(#p-off)"
      />
    );
  const x = hourX(day, hours.from);
  return (
    <rect
      className={pic['raised']}
      stroke="var(--edge)"
      x={percent(x)}
      width={percent(hourX(day, hours.to) - x)}
      y={TOP}
      height={HIGH}
    />
  );
}

/** The words of a stop; with an address they lead to the visit, and so does its bar on the axis above. */
function Stop({ visit }: { visit: StripVisit }) {
  const { day, fromHour, toHour, mark, text, href, spoken } = visit;
  const words = (
    <>
      <Shape mark={mark} size={9} />
      <span>{text}</span>
    </>
  );
  if (href === undefined) return words;
  const x = hourX(day, fromHour);
  const bar = { '--x': percent(x), '--w': percent(hourX(day, toHour) - x) } as CSSProperties;
  return (
    <Link className={css['stop']} href={href} style={bar} data-done={mark === 'done' || undefined}>
      {words}
      {spoken !== undefined && <span className="spoken">, {spoken}</span>}
    </Link>
  );
}

function DayList({
  day,
  week,
  hours,
  visits,
}: {
  day: number;
  week: SlackWeek;
  hours: WeekStripProps['hours'][number];
  visits: readonly StripVisit[];
}) {
  const shown = visits.filter(
    (visit) => visit.day === day && visit.text !== '' && (visit.mark !== 'done' || visit.href !== undefined),
  );
  const off = hours && 'off' in hours ? hours.off : undefined;
  if (shown.length === 0 && off === undefined) return null;
  return (
    <li style={{ marginLeft: percent(foldedX(day)), width: percent(foldedX(1) - foldedX(0)) }}>
      <span className={css['dayName']}>{week.days[day]} </span>
      {off !== undefined && <p className="quiet">{off}</p>}
      {shown.map((visit) => (
        <p key={visit.id} className={PROPOSED.has(visit.mark) ? css['strong'] : undefined}>
          <Stop visit={visit} />
        </p>
      ))}
    </li>
  );
}

/** A person's week on the same axis as the circuits: open bar is free, filled is taken, thin line is driving. */
export function WeekStrip(props: WeekStripProps) {
  const { week, personId, name, note, freeText, freeNote, hours, visits, later = [], label } = props;
  const now = percent(slackX(week.now));
  return (
    <li className={css['strip']}>
      <div className={css['name']}>
        <p>{name}</p>
        <p className={css['sub']}>{note}</p>
      </div>
      <div className={css['state']}>
        <p>
          <b>{freeText}</b>
        </p>
        {freeNote !== undefined && <p className={css['sub']}>{freeNote}</p>}
      </div>
      <div className={css['days']} data-person={personId}>
        <svg className={cx(pic['picture'], css['bars'])} role="img" aria-label={label}>
          <SlackGround week={week} now={false} />
          {hours.map((one, day) => (
            <Day key={day} day={day} hours={one} />
          ))}
          {visits.map((visit) => (
            <Taken key={visit.id} visit={visit} />
          ))}
          <line className={pic['now']} x1={now} x2={now} y1={TOP - 5} y2={TOP + HIGH + 5} />
        </svg>
        <ul className={css['visits']}>
          {Array.from({ length: NEAR_DAYS }, (_, day) => (
            <DayList key={day} day={day} week={week} hours={hours[day]} visits={visits} />
          ))}
          {later.length > 0 && (
            <li data-later style={{ marginLeft: percent(foldedX(NEAR_DAYS)), width: percent(118) }}>
              {later.map((one) => (
                <p key={one.text}>
                  {one.text} <b>{one.free}</b>
                </p>
              ))}
            </li>
          )}
        </ul>
      </div>
    </li>
  );
}
