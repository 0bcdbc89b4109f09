import type { CylinderView } from '@ullage/contracts';
import { composition, isMixed, taintVerdict } from '@ullage/gasbook';
import type { FitnessVerdict, Portion, Taint } from '@ullage/gasbook';
import type { EnteredMass } from '@ullage/units';
import { KPA_PER_PSI } from '@ullage/units';
import { contentsOf, openDoubts, roomOf, taintsOfRows } from '../gas/contents.ts';
import type { CylinderStamps } from '../gas/contents.ts';
import { fitnessOf, gasOf } from '../gas/fitness.ts';
import { notFound } from '../pipeline/case.ts';
import { airChecksOf } from './air-checks.ts';
import { cylinderInstruments } from './cylinder-instruments.ts';
import { customerNames } from './customers.ts';
import { custodyView } from './custody.ts';
import { doubtsOf } from './doubts.ts';
import { filledOn } from './filled-on.ts';
import { statementLines } from './statement.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';

/** Movements on a cylinder's own page; the rest stands in its statement. */
const SHOWN = 20;
export interface HeadRow extends CylinderStamps {
  readonly id: string;
  readonly serial: string;
  readonly label: string | null;
  readonly dedicatedTo: string | null;
  readonly ownerCustomer: { readonly name: string } | null;
  readonly location: { readonly id: string; readonly name: string } | null;
  readonly lostAt: Date | null;
  readonly goneHow: string | null;
}
interface Inside {
  readonly contents: readonly Portion[];
  readonly taints: readonly Taint[];
  readonly fitness: readonly FitnessVerdict[];
}
export function cylinderHead(row: HeadRow, { contents, taints, fitness }: Inside): CylinderView['cylinder'] {
  const netGrams = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const { labels } = taintVerdict({ taints, contentsGrams: netGrams });
  return {
    id: row.id,
    serial: row.serial,
    label: row.label,
    kind: row.kind as CylinderView['cylinder']['kind'],
    specification: row.specification,
    refrigerant: gasOf(contents, row.dedicatedTo),
    netGrams,
    mixed: isMixed(contents),
    doubtText: labels.length === 0 ? null : labels.join(', '),
    fit: fitness.flatMap(({ use, fit }) => (fit ? [use] : [])),
    owner: row.ownerCustomer?.name ?? null,
    place: row.location && { id: row.location.id, name: row.location.name },
    away: (row.lostAt ? 'lost' : row.goneHow) as CylinderView['cylinder']['away'],
  };
}

function loadCylinder({ tx, tenantId }: Viewer, id: string) {
  return tx.cylinder.findUnique({
    where: { tenantId_id: { tenantId, id } },
    include: {
      ownerCustomer: true,
      location: true,
      gasAccount: true,
      cylinderTares: { orderBy: [{ fromAt: 'desc' }, { recordedAt: 'desc' }, { id: 'desc' }], take: 1 },
    },
  });
}
type CylinderRow = NonNullable<Awaited<ReturnType<typeof loadCylinder>>>;

export async function cylinderView(viewer: Viewer, cylinderId: string): Promise<CylinderView> {
  const { tx, tenantId } = viewer;
  const row = await loadCylinder(viewer, cylinderId);
  if (!row?.gasAccount || row.withdrawnAt) throw notFound();
  const account = row.gasAccount.id;
  const contents = await contentsOf(tx, tenantId, account);
  const taints = taintsOfRows(await openDoubts(tx, tenantId, account));
  const filled = (await filledOn(viewer, [account])).get(account) ?? null;
  const inside = { contents, taints, tareGrams: tareOf(row).grams, filledOn: filled, today: todayOf(viewer) };
  const fitness = fitnessOf(row, inside);
  const head = cylinderHead(row, { contents, taints, fitness });
  const [doubts] = await doubtsOf(viewer, [{ accountId: account, contentsGrams: head.netGrams }]);
  const { open, cleared } = doubts ?? { open: [], cleared: [] };
  const customers = await customerNames(
    viewer,
    contents.map(({ holding }) => holding.owner),
  );
  const { lines, more } = await statementLines(viewer, { accountId: account }, SHOWN);
  return {
    cylinder: head,
    ...stampsView(row),
    ...roomView(viewer, row, { refrigerant: head.refrigerant, contents }),
    ...contentsViews(contents, customers),
    fitness: fitness.map(({ use, fit, reasons }) => ({ use, fit, reasons: [...reasons] })),
    doubts: open,
    clearedDoubts: cleared,
    airChecks: await airChecksOf(viewer, cylinderId),
    instruments: await cylinderInstruments(viewer),
    custody: await custodyView(viewer, cylinderId),
    accountId: account,
    movements: [...lines],
    moreMovements: more,
    number: await feedNumber(viewer),
  };
}

export const todayOf = ({ world, now, tenant }: Viewer): string => world.calendar.dayOf(now, tenant.timeZone);
const tareOf = (row: CylinderRow) => row.cylinderTares[0] ?? { value: '0', unit: 'lb', grams: 0 };
function stampsView(row: CylinderRow) {
  const { value, unit, grams } = tareOf(row);
  const kpa = row.servicePressureKpaGauge;
  return {
    waterCapacityKg: Number(row.waterCapacityKg),
    tare: { value, unit: unit as EnteredMass['unit'] },
    tareGrams: grams,
    servicePressurePsig: kpa === null ? null : Math.round(Number(kpa) / KPA_PER_PSI),
    testedMonth: row.testedMonth,
  };
}

const NO_ROOM = { requalifyByOn: null, grossLimitKg: null, roomKg: null, limitedBy: null, mayFill: false, whyNot: [] };
/** Room and fitness to be filled with what is in it or what it is for; nothing is known of an empty one for any gas. */
function roomView(
  viewer: Viewer,
  row: CylinderRow,
  { refrigerant, contents }: { refrigerant: string | null; contents: readonly Portion[] },
) {
  const tareGrams = tareOf(row).grams;
  const today = todayOf(viewer);
  const known = refrigerant === null ? undefined : roomOf(row, { refrigerant, contents, tareGrams, today });
  const room = known ?? NO_ROOM;
  return {
    requalifyBy: room.requalifyByOn,
    grossLimitKg: room.grossLimitKg,
    roomKg: room.roomKg,
    limitText: room.limitedBy,
    mayFill: room.mayFill,
    whyNot: room.whyNot.map(({ code, text, clause }) => ({ code, text, clause })),
  };
}

function contentsViews(
  contents: readonly Portion[],
  customers: ReadonlyMap<string, string>,
): Pick<CylinderView, 'contents' | 'composition'> {
  const total = contents.reduce((sum, { grams }) => sum + grams, 0);
  return {
    contents: contents.map(({ holding: { refrigerant, state, owner }, grams }) => ({
      refrigerant,
      grams,
      owner: owner === null ? null : (customers.get(owner) ?? null),
      state,
    })),
    composition: composition(contents).map(({ refrigerant, grams }) => ({
      refrigerant,
      grams,
      percent: (100 * grams) / total,
    })),
  };
}
