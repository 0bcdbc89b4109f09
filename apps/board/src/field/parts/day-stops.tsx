'use client';
import type { VisitHead } from '@ullage/contracts';
import { State } from '../../ui/state.tsx';
import type { Mark } from '../../ui/marks.tsx';
import { nowOn, type Stop } from '../day-line.ts';
import { useField } from '../field-context.tsx';
import { go, pathTo } from '../router.ts';
import { clock } from '../words.ts';
import { BringUp } from './bring-up.tsx';
import css from './day-stops.module.css';

const MARKS: Readonly<Record<VisitHead['state'], Mark>> = {
  proposed: 'offer',
  placed: 'planned',
  'on-site': 'live',
  done: 'done',
  cancelled: 'refused',
};

function stateText(visit: VisitHead): string {
  if (visit.state === 'on-site' && visit.startedAt !== null)
    return `On site since ${clock(visit.startedAt, visit.timeZone)}`;
  if (visit.state === 'done') return 'Done';
  return 'Planned';
}
function gapText(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  const text = hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
  return `${text} to get there`;
}

/** One stop: a long stay is tall, so that the day is seen as time. */
function StopRow({ stop, isNext, now }: StopRowProps) {
  const { visit } = stop;
  const to = pathTo(visit.id, 'start', null);
  return (
    <>
      {stop.minutesBefore !== null && (
        <li className={css['gap']} style={{ minHeight: Math.min(72, 26 + stop.minutesBefore / 4) }}>
          {stop.overlaps ? 'Overlaps with the stop before' : gapText(stop.minutesBefore)}
        </li>
      )}
      <li
        className={css['stop']}
        data-next={isNext || undefined}
        data-done={visit.state === 'done' || undefined}
        style={{ minHeight: Math.min(190, 56 + visit.minutes / 4) }}
      >
        {now && (
          <p className={css['now']} style={{ top: `max(30px, ${(now.share * 100).toFixed(1)}%)` }}>
            <span className="spoken">Now </span>
            {now.text}
          </p>
        )}
        <time dateTime={visit.startsAt ?? undefined}>
          {visit.startsAt === null ? '' : clock(visit.startsAt, visit.timeZone)}
        </time>
        <article>
          <a
            href={to}
            onClick={(event) => {
              if (event.metaKey || event.ctrlKey || event.shiftKey) return;
              event.preventDefault();
              go(to);
            }}
          >
            <span className="id">{visit.circuitTags.join(', ')}</span> {visit.siteName}
          </a>
          <State mark={MARKS[visit.state]} size={13}>
            {stateText(visit)}
          </State>
          {visit.state !== 'done' && (
            <p>
              {visit.purposeText}
              {visit.symptom !== null && `: ${visit.symptom}`}
            </p>
          )}
          {isNext && <BringUp visitId={visit.id} />}
        </article>
      </li>
    </>
  );
}

interface StopRowProps {
  readonly stop: Stop;
  readonly isNext: boolean;
  /** The clock, where it stands in this stop. */
  readonly now: { readonly share: number; readonly text: string } | undefined;
}

export interface DayStopsProps {
  readonly stops: readonly Stop[];
  readonly next: VisitHead | undefined;
  readonly now: Date;
}
/** The day as one line of time; the short rule on it is now. */
export function DayStops({ stops, next, now }: DayStopsProps) {
  const { timeZone } = useField();
  const here = nowOn(stops, now);
  return (
    <ol className={css['day']}>
      {here.share === 0 && (
        <li className={css['early']}>
          <time>{clock(now, timeZone)}</time> now
        </li>
      )}
      {stops.map((stop, i) => (
        <StopRow
          key={stop.visit.id}
          stop={stop}
          isNext={stop.visit.id === next?.id}
          now={i === here.at && here.share > 0 ? { share: here.share, text: clock(now, timeZone) } : undefined}
        />
      ))}
    </ol>
  );
}
