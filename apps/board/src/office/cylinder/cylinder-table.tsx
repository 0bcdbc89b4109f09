import type { CylinderListView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { State } from '../../ui/state.tsx';
import { Table } from '../../ui/table.tsx';
import { cylinderPath } from '../link-to.ts';
import { aboutWords, gramsWords } from '../masses.ts';
import { KIND_WORDS } from './words.ts';

type Item = CylinderListView['items'][number];

export interface CylinderTableProps {
  readonly items: readonly Item[];
  readonly unit: MassUnit;
  readonly empty: ReactNode;
}

/** Cylinders with what is in them and what is doubtful about it. */
export function CylinderTable({ items, unit, empty }: CylinderTableProps) {
  return (
    <Table
      caption="Cylinders with contents and doubts"
      rows={items}
      keyOf={(item) => item.id}
      empty={empty}
      columns={[
        {
          id: 'name',
          head: 'Cylinder',
          cell: (item) => (
            <>
              <Link className="id" href={cylinderPath(item.id)}>
                {item.label ?? item.serial}
              </Link>
              {item.label !== null && <small className="id">{item.serial}</small>}
            </>
          ),
        },
        {
          id: 'kind',
          head: 'Kind',
          cell: (item) => (
            <>
              {KIND_WORDS[item.kind]}
              <small>{item.specification}</small>
            </>
          ),
        },
        { id: 'gas', head: 'Gas', cell: (item) => item.refrigerant ?? <span className="quiet">none</span> },
        {
          id: 'net',
          head: 'Net',
          right: true,
          cell: (item) =>
            item.netGrams === 0 ? (
              <span className="quiet">empty</span>
            ) : (
              <>
                {aboutWords(item.netGrams, unit)}
                <small>{gramsWords(item.netGrams)}</small>
              </>
            ),
        },
        {
          id: 'doubt',
          head: 'Doubts',
          cell: (item) =>
            item.doubtText === null ? (
              <span className="quiet">none known</span>
            ) : (
              <State mark="unsure">{item.doubtText}</State>
            ),
        },
        { id: 'owner', head: 'Owner', cell: (item) => item.owner ?? 'this firm' },
      ]}
    />
  );
}
