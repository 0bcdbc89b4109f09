'use client';
import type { ReturnItem } from '@ullage/contracts';
import { SlackList } from '../../pictures/slack-list.tsx';
import { SlackRow, type SlackPlaced } from '../../pictures/slack-row.tsx';
import { EmptyState } from '../../ui/blank.tsx';
import { localTime } from '../../lib/local-time.ts';
import type { Offer } from './offer.ts';
import type { Picture } from './picture.ts';
import { RowLink } from './row-link.tsx';
import { dayOnAxis, laneOf, placedOf, rowLabel, slackWords, stateOf, whoGoes, type Axis, type Filter } from './rows.ts';
import css from './returns.module.css';

const EMPTY: Readonly<Record<Filter, string>> = {
  all: 'No circuit is waiting for a return visit.',
  late: 'No return visit is overdue.',
  unplaced: 'Every return visit has a day and a technician.',
  mine: 'No return visit is yours.',
};

export function offered(offer: Offer | undefined, visitId: string, axis: Axis): SlackPlaced | undefined {
  if (offer?.visitId !== visitId || offer.day === '' || offer.time === '') return undefined;
  const hour = Number(offer.time.slice(0, 2)) + Number(offer.time.slice(3)) / 60;
  const who = offer.name === '' ? '' : `${whoGoes([{ name: offer.name }])}, `;
  return {
    at: dayOnAxis(offer.day, axis) + hour / 24,
    mark: offer.refused ? 'refused' : 'offer',
    text: `${who}${offer.time}`,
  };
}

function CircuitRow({ item, ...picture }: Picture & { item: ReturnItem }) {
  const { week, axis, now, selected, offer, select } = picture;
  const { visit } = item;
  const asked = offered(offer, visit.id, axis);
  return (
    <SlackRow
      week={week}
      lane={laneOf(item, now, axis)}
      state={stateOf(item)}
      provisional={item.provisional}
      selected={visit.id === selected}
      slackText={slackWords(item, now)}
      label={rowLabel(item, now)}
      placed={placedOf(item, axis)}
      offered={asked}
      name={
        <RowLink visitId={visit.id} select={select}>
          <span className="id">{item.circuitTag}</span> {visit.siteName}
        </RowLink>
      }
      duty={
        <>
          {item.flag !== null && <b>Look again: </b>}
          {item.title}
          {item.provisional && ', date provisional'}
          {localTime(now, visit.timeZone).time !== week.nowText && ', another time zone'}
        </>
      }
    />
  );
}

export function CircuitRows({ items, all, filter, ...picture }: CircuitRowsProps) {
  return (
    <SlackList label="Return visits, overdue first, then least slack" week={picture.week}>
      {items.map((item) => (
        <CircuitRow key={item.visit.id} {...picture} item={item} />
      ))}
      {items.length === 0 && (
        <li className={css['none']}>
          <EmptyState title={EMPTY[all === 0 ? 'all' : filter]}>
            {all === 0 ? (
              <p>
                A duty appears here the moment evidence makes one: an addition over the limit, a repair that must be
                proven, a plan that falls due.
              </p>
            ) : (
              <p>The others are under All.</p>
            )}
          </EmptyState>
        </li>
      )}
    </SlackList>
  );
}
interface CircuitRowsProps extends Picture {
  readonly items: readonly ReturnItem[];
  readonly all: number;
  readonly filter: Filter;
}
