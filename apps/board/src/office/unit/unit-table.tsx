import type { UnitListView } from '@ullage/contracts';
import Link from 'next/link';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { dutyLeft } from '../duty-left.ts';
import { unitPath } from '../link-to.ts';
import { massWords } from '../masses.ts';
import { dayWords } from '../when.ts';
import type { ReactNode } from 'react';

type Item = UnitListView['items'][number];
const letterOf = (tag: string): string => tag.slice(tag.lastIndexOf('-') + 1);

function Rate({ item }: { item: Item }) {
  if (item.rateText === null || item.over === null) return <span className="quiet">none yet</span>;
  return (
    <>
      <State mark={item.over ? 'over' : 'under'}>{item.rateText} % a year</State>
      <small>{item.over ? 'over its limit' : 'not over its limit'}</small>
    </>
  );
}

function NextDuty({ duty, today }: { duty: Item['nextDuty']; today: string }) {
  if (!duty) return <span className="quiet">nothing open</span>;
  const { mark, word, left } = dutyLeft({ state: 'open', dueOn: duty.dueOn }, today);
  return (
    <>
      <State mark={mark}>{`${word}, ${left}`}</State>
      <small>
        {duty.title} by {dayWords(duty.dueOn)}
      </small>
    </>
  );
}

/** Circuits with their rate and the duty that is due first. */
export function UnitTable({ items, today, empty }: { items: readonly Item[]; today: string; empty: ReactNode }) {
  return (
    <Table
      caption="Circuits with rate and nearest duty"
      rows={items}
      keyOf={(item) => item.circuitId}
      empty={empty}
      columns={[
        {
          id: 'unit',
          head: 'Circuit',
          cell: (item) => (
            <>
              <Link className="id" href={unitPath(item.unitId, letterOf(item.tag))}>
                {item.tag}
              </Link>{' '}
              {item.description}
            </>
          ),
        },
        {
          id: 'site',
          head: 'Site',
          cell: (item) => (
            <>
              {item.site}
              <small>{item.customer}</small>
            </>
          ),
        },
        {
          id: 'gas',
          head: 'Gas, full charge',
          cell: (item) => (
            <>
              {item.refrigerant}
              <small>{massWords(item.fullCharge)}</small>
            </>
          ),
        },
        { id: 'rate', head: 'Leak rate', cell: (item) => <Rate item={item} /> },
        { id: 'duty', head: 'Nearest duty', cell: (item) => <NextDuty duty={item.nextDuty} today={today} /> },
      ]}
    />
  );
}
