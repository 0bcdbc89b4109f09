import { EMPTY_CYLINDERS } from '@ullage/contracts';
import type { CylinderListView } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import type { Portion } from '@ullage/gasbook';
import { asTaint } from '../gas/contents.ts';
import type { CylindersAsked } from '../office.ts';
import { toInstant } from '../pipeline/case.ts';
import { CYLINDER_CHOICES, CYLINDER_LIST } from './cylinder-list.sql.ts';
import type { CylinderListRow } from './cylinder-list.sql.ts';
import { cylinderHead } from './cylinders.ts';
import type { Viewer } from './viewer.ts';

const PAGE = 100;
const orNull = (text: string | undefined): string | null => (text === undefined || text === '' ? null : text);

/** Cylinders a page at a time, in the order they were registered. The cursor is the last one's id. */
export async function cylinderList({ tx, tenantId }: Viewer, asked: CylindersAsked): Promise<CylinderListView> {
  const { query, after, gas, doubt, site } = asked;
  const values = [
    ...[tenantId, orNull(after), orNull(query)],
    gas === EMPTY_CYLINDERS ? null : orNull(gas),
    gas === EMPTY_CYLINDERS ? true : null,
    doubt === undefined ? null : doubt === 'doubted',
    orNull(site),
    PAGE + 1,
  ];
  const rows = await txQuery(tx, CYLINDER_LIST, values);
  const [choices] = await txQuery(tx, CYLINDER_CHOICES, [tenantId]);
  const shown = rows.slice(0, PAGE);
  return {
    items: shown.map((row) => itemOf(row, tenantId)),
    next: rows.length > PAGE ? (shown.at(-1)?.id ?? null) : null,
    gases: choices?.gases ?? [],
    places: choices?.places ?? [],
  };
}

function itemOf(row: CylinderListRow, tenantId: string): CylinderListView['items'][number] {
  const contents = row.contents.map(({ refrigerant, owner, state, grams }): Portion => ({
    holding: {
      refrigerant,
      owner: owner === tenantId ? null : owner,
      state: state as Portion['holding']['state'],
    },
    grams,
  }));
  const ownerCustomer = row.owner === null ? null : { name: row.owner };
  const gases = [...new Set(row.contents.map(({ refrigerant }) => refrigerant))];
  return {
    ...cylinderHead({ ...row, ownerCustomer }, contents, row.taints.map(asTaint)),
    alsoHolds: gases.slice(1),
    lastWeighed: row.weighedAt
      ? { at: toInstant(row.weighedAt), by: row.weighedBy, site: row.weighedAtSite, visitId: row.visitId }
      : null,
  };
}
