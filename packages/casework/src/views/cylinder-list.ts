import { AWAY_ASKED, EMPTY_CYLINDERS } from '@ullage/contracts';
import type { CylinderListView } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { taintsOf } from '@ullage/gasbook';
import type { Portion } from '@ullage/gasbook';
import { fitnessOf } from '../gas/fitness.ts';
import type { CylindersAsked } from '../office.ts';
import { toInstant } from '../pipeline/case.ts';
import { CYLINDER_CHOICES, CYLINDER_LIST } from './cylinder-list.sql.ts';
import type { CylinderListRow } from './cylinder-list.sql.ts';
import { cylinderHead, todayOf } from './cylinders.ts';
import { filledOn } from './filled-on.ts';
import type { Viewer } from './viewer.ts';

const PAGE = 100;
const isAway = (place: string): boolean => (AWAY_ASKED as readonly string[]).includes(place);
const orNull = (text: string | undefined): string | null => (text === undefined || text === '' ? null : text);

/** What the statement is asked with, in its order. */
function valuesOf(tenantId: string, { query, after, gas, doubt, site, place = '' }: CylindersAsked) {
  return [
    ...[tenantId, orNull(after), orNull(query)],
    gas === EMPTY_CYLINDERS ? null : orNull(gas),
    gas === EMPTY_CYLINDERS ? true : null,
    doubt === undefined ? null : doubt === 'doubted',
    orNull(site),
    PAGE + 1,
    isAway(place) ? null : orNull(place),
    isAway(place) ? place : null,
  ];
}

/**
 * Cylinders a page at a time, with what is in them, what is doubted and what they are fit for today, in the order they
 * were registered. The cursor is the last one's id.
 */
export async function cylinderList(viewer: Viewer, asked: CylindersAsked): Promise<CylinderListView> {
  const { tx, tenantId } = viewer;
  const rows = await txQuery(tx, CYLINDER_LIST, valuesOf(tenantId, asked));
  const [choices] = await txQuery(tx, CYLINDER_CHOICES, [tenantId]);
  const shown = rows.slice(0, PAGE);
  const filled = await filledOn(
    viewer,
    shown.flatMap(({ accountId }) => accountId ?? []),
  );
  const today = todayOf(viewer);
  return {
    items: shown.map((row) => itemOf(row, { tenantId, today, filledOn: filled.get(row.accountId ?? '') ?? null })),
    next: rows.length > PAGE ? (shown.at(-1)?.id ?? null) : null,
    gases: choices?.gases ?? [],
    places: choices?.places ?? [],
    kept: choices?.kept ?? [],
  };
}

interface Given {
  readonly tenantId: string;
  readonly today: string;
  readonly filledOn: string | null;
}
function itemOf(row: CylinderListRow, { tenantId, ...days }: Given): CylinderListView['items'][number] {
  const contents = row.contents.map(({ refrigerant, owner, state, grams }): Portion => ({
    holding: {
      refrigerant,
      owner: owner === tenantId ? null : owner,
      state: state as Portion['holding']['state'],
    },
    grams,
  }));
  const taints = taintsOf(row.doubts);
  const fitness = fitnessOf(row, { contents, taints, tareGrams: row.tareGrams ?? 0, ...days });
  const ownerCustomer = row.owner === null ? null : { name: row.owner };
  const location = row.placeId === null ? null : { id: row.placeId, name: row.placeName ?? '' };
  const head = cylinderHead({ ...row, ownerCustomer, location }, { contents, taints, fitness });
  const gases = new Set(row.contents.map(({ refrigerant }) => refrigerant));
  return {
    ...head,
    alsoHolds: [...gases].filter((gas) => gas !== head.refrigerant),
    lastWeighed: row.weighedAt
      ? { at: toInstant(row.weighedAt), by: row.weighedBy, site: row.weighedAtSite, visitId: row.visitId }
      : null,
  };
}
