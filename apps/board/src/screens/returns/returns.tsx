'use client';
import type { ReturnsView, VisitHead } from '@ullage/contracts';
import { useState } from 'react';
import { ButtonLink } from '../../ui/button-link.tsx';
import { Segment } from '../../ui/segment.tsx';
import { State } from '../../ui/state.tsx';
import { Aside } from './aside.tsx';
import { CircuitRows } from './circuit-rows.tsx';
import { CallRows } from './call-rows.tsx';
import { Dragging } from './dragging.tsx';
import { PeopleRows } from './people-rows.tsx';
import { axisOf, countsOf, filtered, stateOf, weekOf, type Filter } from './rows.ts';
import { useChosen } from './use-chosen.ts';
import { useReturns } from './use-returns.ts';
import css from './returns.module.css';

export interface ReturnsProps {
  readonly first: ReturnsView;
  /** The visit the address names; empty for none. */
  readonly chosen: string;
  /** Who looks. */
  readonly personId: string;
  readonly mayPlace: boolean;
  readonly mayTakeCalls: boolean;
}

function Head({ data, filter, onFilter, personId, mayTakeCalls }: HeadProps) {
  const counts = countsOf(data.items, data.calls.length);
  const count = (part: Filter): number => filtered(data.items, part, personId).length;
  const mine = data.people.some((person) => person.id === personId);
  return (
    <header className={css['head']}>
      <h1>Return visits</h1>
      <div className={css['tools']}>
        <Segment
          label="Which visits"
          value={filter}
          onChange={onFilter}
          parts={[
            { value: 'all', text: 'All', count: data.items.length },
            { value: 'late', text: 'Overdue', count: count('late') },
            { value: 'unplaced', text: 'No visit yet', count: count('unplaced') },
            ...(mine ? ([{ value: 'mine', text: 'Mine' }] as const) : []),
          ]}
        />
        {mayTakeCalls && <ButtonLink href="/calls/new">Take a call</ButtonLink>}
      </div>
      <p className={css['sum']}>
        {counts.late > 0 && <State mark="late">{counts.late} overdue</State>}
        {counts.soon > 0 && <State mark="soon">{counts.soon} due soon</State>}
        {counts.hold > 0 && <State mark="hold">{counts.hold} on hold</State>}
        {counts.rest !== '' && <span className="quiet">{counts.rest}</span>}
      </p>
    </header>
  );
}
interface HeadProps extends Pick<ReturnsProps, 'personId' | 'mayTakeCalls'> {
  readonly data: ReturnsView;
  readonly filter: Filter;
  readonly onFilter: (filter: Filter) => void;
}

/** The first visit worth looking at when the address names none. */
const firstOf = ({ items, calls }: ReturnsView): string => items[0]?.visit.id ?? calls[0]?.id ?? '';

const mayMove = ({ state }: VisitHead): boolean => state === 'proposed' || state === 'placed';

/** Slack of every circuit above, people on the same axis below, reasons and placing beside. */
export function Returns({ first, chosen, personId, mayPlace, mayTakeCalls }: ReturnsProps) {
  const { data, refresh, said } = useReturns(first);
  const [filter, setFilter] = useState<Filter>('all');
  const { selected, select, pick, offer, setOffer, setDragged, placerRef, drop } = useChosen(chosen || firstOf(first));
  const week = weekOf(data);
  const axis = axisOf(data);
  const shown = filtered(data.items, filter, personId);
  const calls = filter === 'all' ? data.calls : [];
  const picture = { week, axis, now: data.now, selected, offer, select };
  return (
    <main className={css['page']}>
      <div className={css['left']}>
        <Head {...{ data, filter, personId, mayTakeCalls }} onFilter={setFilter} />
        <div className={css['circuits']} role="region" aria-label="Circuits and calls" tabIndex={0}>
          <CircuitRows {...picture} items={shown} all={data.items.length} filter={filter} />
          {calls.length > 0 && <CallRows {...picture} calls={calls} />}
        </div>
        <div className={css['people']} role="region" aria-label="Who can go" tabIndex={0}>
          <PeopleRows {...picture} people={data.people} workingDay={data.workingDay} takesDrops={mayPlace} />
        </div>
      </div>
      <Aside
        key={selected}
        {...{ data, axis, selected, mayPlace, placerRef }}
        late={data.items.some((item) => item.visit.id === selected && stateOf(item) === 'late')}
        onOffer={setOffer}
        onChanged={refresh}
      />
      {mayPlace && (
        <Dragging
          {...{ data, axis }}
          visitIds={[...shown.map(({ visit }) => visit), ...calls].filter(mayMove).map(({ id }) => id)}
          onPick={pick}
          onHover={setDragged}
          onDrop={drop}
        />
      )}
      <p className="spoken" role="status">
        {said}
      </p>
    </main>
  );
}
