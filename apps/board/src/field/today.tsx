'use client';
import type { Problem, VisitHead, VisitListView } from '@ullage/contracts';
import { EmptyState, ErrorState } from '../ui/blank.tsx';
import { BigButton } from '../ui/phone/big-button.tsx';
import { PhoneShell } from '../ui/phone/phone-shell.tsx';
import { Skeleton } from '../ui/skeleton.tsx';
import { dayLine, goOnWith } from './day-line.ts';
import { useField } from './field-context.tsx';
import { DayStops } from './parts/day-stops.tsx';
import { SyncState } from './parts/sync-state.tsx';
import { go, pathTo } from './router.ts';
import { type Shown, useRead } from './use-read.ts';
import { dayAt, longDay } from './words.ts';

const hasPlace = (visit: VisitHead): boolean => visit.state !== 'cancelled' && visit.state !== 'proposed';

/** The day's stops on one line of time. */
export function Today({ serverNow }: { serverNow: () => Date }) {
  const { port, me, timeZone } = useField();
  const day = dayAt(serverNow(), timeZone);
  const shown = useRead(port, () => port.today({ day, personId: me.person.id }));
  const visits = (shown.data?.items ?? []).filter(hasPlace);
  const next = goOnWith(visits);
  return (
    <PhoneShell
      title={longDay(serverNow(), timeZone)}
      aside={<Me />}
      sync={<SyncState />}
      foot={next && <BigButton onClick={() => go(pathTo(next.id, 'start', null))}>{goOnText(next)}</BigButton>}
    >
      {shown.data ? (
        <Day visits={visits} problem={shown.problem} next={next} now={serverNow()} />
      ) : (
        <NotYet shown={shown} />
      )}
    </PhoneShell>
  );
}

/** Whose day it is, and the way to their own sign-in; without a signal there is none. */
function Me() {
  const { me, sync } = useField();
  if (sync.line.is === 'offline') return me.person.name;
  return <a href="/settings/sign-in">{me.person.name}</a>;
}

function NotYet({ shown }: { shown: Shown<VisitListView> }) {
  if (!shown.problem) return <Skeleton label="Fetching your day" lines={8} />;
  const retry = (
    <BigButton kind="plain" onClick={() => void shown.refresh()}>
      Try again
    </BigButton>
  );
  return (
    <ErrorState title={shown.problem.title} actions={retry}>
      <p>{shown.problem.detail}</p>
    </ErrorState>
  );
}

interface DayProps {
  readonly visits: readonly VisitHead[];
  readonly problem: Problem | undefined;
  readonly next: VisitHead | undefined;
  readonly now: Date;
}
function Day({ visits, problem, next, now }: DayProps) {
  return (
    <>
      {problem && <p role="status">Not fetched anew: {problem.title.toLowerCase()}. This is what was last known.</p>}
      {visits.length === 0 ? (
        <EmptyState title="No visit is on your day.">
          <p>The dispatcher places visits; one that is given to you appears here by itself.</p>
        </EmptyState>
      ) : (
        <DayStops stops={dayLine(visits)} next={next} now={now} />
      )}
    </>
  );
}

const nameOf = (visit: VisitHead): string => visit.circuitTags[0] ?? visit.siteName;
const goOnText = (visit: VisitHead): string => `${visit.state === 'on-site' ? 'Go on with' : 'Open'} ${nameOf(visit)}`;
