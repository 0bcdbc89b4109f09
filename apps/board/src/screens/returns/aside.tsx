'use client';
import { VisitView, type ReturnItem, type ReturnsView, type VisitHead } from '@ullage/contracts';
import type { Route } from 'next';
import Link from 'next/link';
import { useEffect, useState } from 'react';
import type { z } from 'zod';
import { call } from '../../lib/client.ts';
import { momentWords } from '../../lib/local-time.ts';
import { RULE_NAMES } from '../../office/rule-names.ts';
import { EmptyState } from '../../ui/blank.tsx';
import { State } from '../../ui/state.tsx';
import type { Offer } from './offer.ts';
import { Placing } from './placing.tsx';
import { Reasons } from './reasons.tsx';
import type { Axis } from './rows.ts';
import type { PlacerRef } from './takes-drops.ts';
import css from './returns.module.css';

type Head = z.infer<typeof VisitHead>;

/** A visit that is on neither list (a placed call, a visit just done) is fetched by itself. */
function useVisit(visitId: string, listed: Head | undefined, number: number): Head | undefined {
  const [fetched, setFetched] = useState<Head>();
  const wanted = listed === undefined && visitId !== '';
  useEffect(() => {
    if (!wanted) return;
    let here = true;
    void call<unknown>(`/v1/visits/${encodeURIComponent(visitId)}`).then((answer) => {
      const read = answer.ok ? VisitView.safeParse(answer.data) : undefined;
      if (here && read?.success) setFetched(read.data.visit);
    });
    return () => {
      here = false;
    };
  }, [visitId, wanted, number]);
  return listed ?? fetched;
}

function Standing({ visit }: { visit: Head }) {
  if (visit.startsAt === null) return null;
  const who = visit.people.map(({ name }) => name).join(' and ');
  return (
    <div className={css['standing']}>
      <p>
        <State mark={visit.state === 'on-site' ? 'live' : visit.state === 'done' ? 'done' : 'planned'} />{' '}
        {momentWords(visit.startsAt, visit.timeZone)}, {visit.minutes} min
        <br />
        {who}
      </p>
      {visit.overrides.map(({ rule, reason }) => (
        <p key={rule} className={css['kept']}>
          <b>Overridden, {RULE_NAMES[rule]}:</b> {reason}
        </p>
      ))}
    </div>
  );
}

function Title({ visit, item }: { visit: Head; item: ReturnItem | undefined }) {
  return (
    <div className={css['title']}>
      <h2 id="visit-title" tabIndex={-1}>
        <span className="id">{visit.circuitTags.join(', ')}</span> {visit.siteName}
      </h2>
      <p className="quiet">
        {item ? (
          <>
            {item.title}. {item.why} {item.clause}
          </>
        ) : (
          <>
            {visit.purposeText}, {visit.customerName}. {visit.symptom ?? ''}
          </>
        )}
      </p>
      {item?.flag != null && (
        <p className={css['kept']}>
          <b>Look again:</b> {item.flag}
        </p>
      )}
      <p className={css['links']}>
        <Link href={`/visits/${visit.id}` as Route}>The visit</Link>
        {item && <Link href={`/units/${item.unitId}` as Route}>The unit</Link>}
      </p>
    </div>
  );
}

const OPEN_STATES: ReadonlySet<string> = new Set(['proposed', 'placed']);

/** Why this visit, what is left of its time, and who goes when. */
export function Aside({ data, axis, selected, mayPlace, late, placerRef, onOffer, onChanged }: AsideProps) {
  const item = data.items.find(({ visit }) => visit.id === selected);
  const listed = item?.visit ?? data.calls.find(({ id }) => id === selected);
  const visit = useVisit(selected, listed, data.number);
  if (!visit)
    return (
      <aside className={css['aside']} aria-label="The chosen visit">
        <EmptyState title={selected === '' ? 'Nothing waits.' : 'This visit is not on the list.'}>
          <p>Choose a row to see why it is there and who can go.</p>
        </EmptyState>
      </aside>
    );
  return (
    <aside
      className={css['aside']}
      aria-label="The chosen visit"
      onKeyDown={(event) => {
        if (event.key === 'Escape') document.getElementById(`row-${visit.id}`)?.focus();
      }}
    >
      <Title visit={visit} item={item} />
      {item && <Reasons item={item} now={data.now} />}
      <Standing visit={visit} />
      {mayPlace && OPEN_STATES.has(visit.state) && (
        <Placing {...{ visit, item, data, axis, late, placerRef, onOffer, onChanged }} />
      )}
      <p className={css['foot']}>Local codes and licensed practice rule.</p>
    </aside>
  );
}
interface AsideProps {
  readonly data: ReturnsView;
  readonly axis: Axis;
  readonly selected: string;
  readonly mayPlace: boolean;
  readonly late: boolean;
  readonly placerRef: PlacerRef;
  readonly onOffer: (offer: Offer | undefined) => void;
  readonly onChanged: () => void;
}
