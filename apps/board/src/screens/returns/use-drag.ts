'use client';
import type { PlacingGround, ReturnsView, VisitHead } from '@ullage/contracts';
import type { PlacingAnswer } from '@ullage/roster';
import type { Calendar } from '@ullage/units';
import { useEffect, useEffectEvent, useRef, useState } from 'react';
import { attachDrags, type Hover } from './drag-attach.ts';
import { fetchGround, loadCalendar } from './drag-ground.ts';
import { judge, momentOf, shareOf, shut, startAt, verdictOf, type Moment, type Stretch } from './drag-moment.ts';
import type { Offer } from './offer.ts';
import type { Axis } from './rows.ts';
import type { Placer } from './takes-drops.ts';

export interface DragProps {
  readonly data: ReturnsView;
  readonly axis: Axis;
  /** The visits whose rows are shown and may be placed. */
  readonly visitIds: readonly string[];
  readonly onPick: (visitId: string) => void;
  /** The moment the pointer is at, drawn like one that the form asks for. */
  readonly onHover: (offer: Offer | undefined) => void;
  readonly onDrop: Placer;
}
/** What is being dragged; the rest is there as soon as it has been fetched. */
interface Carried {
  readonly visit: VisitHead;
  readonly calendar?: Calendar;
  readonly ground?: PlacingGround | undefined;
}
/** The moment under the pointer, and where it is drawn. */
export interface Over {
  readonly personId: string;
  readonly moment: Moment;
  readonly answer: PlacingAnswer | undefined;
  readonly x: number;
  readonly top: number;
}
type Shades = ReadonlyMap<string, readonly Stretch[]>;
const NO_SHADES: Shades = new Map();

const headOf = ({ items, calls }: ReturnsView, visitId: string): VisitHead | undefined =>
  items.find(({ visit }) => visit.id === visitId)?.visit ?? calls.find(({ id }) => id === visitId);

function overOf(
  { personId, box, clientX }: Hover,
  { visit, calendar, ground }: Carried,
  { axis, data }: DragProps,
): Over | undefined {
  const start = startAt((clientX - box.left) / box.width, box.width);
  if (!start || !calendar) return undefined;
  const moment = momentOf(start, { axis, zone: visit.timeZone, calendar });
  if (!moment) return undefined;
  const answer = ground && judge(moment.startsAt, { ground, personId, now: data.now, calendar });
  return { personId, moment, answer, x: box.left + box.width * shareOf(start), top: box.top };
}
const keyOf = (over: Over | undefined): string =>
  over ? `${over.personId} ${over.moment.startsAt} ${over.top} ${over.answer?.ok}` : '';

function drawn({ personId, moment, answer }: Over, { id, minutes }: VisitHead, people: ReturnsView['people']): Offer {
  const name = people.find((person) => person.id === personId)?.name ?? '';
  const refused = verdictOf(answer) === 'closed';
  return { visitId: id, personId, day: moment.day, time: moment.time, minutes, name, refused, inHand: true };
}
const frame = (): Promise<unknown> => new Promise((resolve) => requestAnimationFrame(resolve));

/** Follows a drag: the moment under the pointer, and for each person the starts that are not open. */
export function useDrag(props: DragProps): { readonly over: Over | undefined; readonly shades: Shades } {
  const { data, axis, visitIds, onPick, onHover, onDrop } = props;
  const [over, setOver] = useState<Over>();
  const [shades, setShades] = useState(NO_SHADES);
  const carriedRef = useRef<Carried>(undefined);
  const hoveredRef = useRef<Hover>(undefined);

  const hover = useEffectEvent((at: Hover | undefined): void => {
    hoveredRef.current = at;
    const carried = carriedRef.current;
    const next = at && carried && overOf(at, carried, props);
    if (keyOf(next) === keyOf(over)) return;
    setOver(next);
    onHover(next && carried && drawn(next, carried.visit, data.people));
  });
  const begin = useEffectEvent(async (visitId: string): Promise<void> => {
    const visit = headOf(data, visitId);
    if (!visit) return;
    const alone: Carried = { visit };
    carriedRef.current = alone;
    onPick(visitId);
    const [calendar, ground] = await Promise.all([loadCalendar(), fetchGround(visitId)]);
    if (carriedRef.current !== alone) return;
    const carried = { visit, calendar, ground };
    carriedRef.current = carried;
    // The pointer may have come to rest before anything could be said.
    hover(hoveredRef.current);
    // A person at a time, so that the drag itself never waits.
    for (const { id: personId } of ground ? data.people : []) {
      await frame();
      if (carriedRef.current !== carried || !ground) return;
      const stretches = shut({ ground, personId, now: data.now, calendar }, axis);
      setShades((old) => new Map(old).set(personId, stretches));
    }
  });
  const end = useEffectEvent((at: Hover | undefined): void => {
    const carried = carriedRef.current;
    const dropped = at && carried && overOf(at, carried, props);
    carriedRef.current = undefined;
    hoveredRef.current = undefined;
    setOver(undefined);
    setShades(NO_SHADES);
    onHover(undefined);
    if (!dropped || !carried) return;
    const { day, time, which } = dropped.moment;
    onDrop(carried.visit.id, { personId: dropped.personId, day, time, which });
  });

  const rows = visitIds.join(' ');
  const people = data.people.map(({ id }) => id).join(' ');
  useEffect(
    () =>
      attachDrags(
        { visitIds: rows.split(' ').filter(Boolean), personIds: people.split(' ').filter(Boolean) },
        { onStart: (visitId) => void begin(visitId), onHover: (at) => hover(at), onEnd: (at) => end(at) },
      ),
    [rows, people],
  );
  return { over, shades };
}
