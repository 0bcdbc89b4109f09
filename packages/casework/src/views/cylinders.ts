import type { CylinderView } from '@ullage/contracts';
import { taintVerdict } from '@ullage/gasbook';
import type { Portion, Taint } from '@ullage/gasbook';
import type { EnteredMass } from '@ullage/units';
import { KPA_PER_PSI } from '@ullage/units';
import { asTaint, contentsOf, openTaints, roomOf } from '../gas/contents.ts';
import { notFound, toInstant } from '../pipeline/case.ts';
import { feedNumber } from './viewer.ts';
import type { Viewer } from './viewer.ts';
import { customerNames } from './customers.ts';
import { statementLines } from './statement.ts';
import { TAINT_WORDS_LONG, wordOf } from './words.ts';

/** Movements on a cylinder's own page; the rest stands in its statement. */
const SHOWN = 20;
export interface CylinderHeadRow {
  id: string;
  serial: string;
  label: string | null;
  kind: string;
  specification: string;
  dedicatedTo: string | null;
  ownerCustomer: { name: string } | null;
}
export function cylinderHead(
  row: CylinderHeadRow,
  contents: readonly Portion[],
  taints: readonly Taint[],
): CylinderView['cylinder'] {
  const netGrams = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const { labels } = taintVerdict({ taints, contentsGrams: netGrams });
  return {
    id: row.id,
    serial: row.serial,
    label: row.label,
    kind: row.kind as CylinderView['cylinder']['kind'],
    specification: row.specification,
    refrigerant: contents[0]?.holding.refrigerant ?? row.dedicatedTo,
    netGrams,
    doubtText: labels.length === 0 ? null : labels.join(', '),
    owner: row.ownerCustomer?.name ?? null,
  };
}

function loadCylinder({ tx, tenantId }: Viewer, id: string) {
  return tx.cylinder.findUnique({
    where: { tenantId_id: { tenantId, id } },
    include: { ownerCustomer: true, gasAccount: true, cylinderTares: { orderBy: { fromAt: 'desc' }, take: 1 } },
  });
}
type CylinderRow = NonNullable<Awaited<ReturnType<typeof loadCylinder>>>;

export async function cylinderView(viewer: Viewer, cylinderId: string): Promise<CylinderView> {
  const { tx, tenantId } = viewer;
  const row = await loadCylinder(viewer, cylinderId);
  if (!row?.gasAccount) throw notFound();
  const account = row.gasAccount.id;
  const contents = await contentsOf(tx, tenantId, account);
  const taints = await openTaints(tx, tenantId, account);
  const head = cylinderHead(row, contents, taints.map(asTaint));
  const customers = await customerNames(
    viewer,
    contents.map(({ holding }) => holding.owner),
  );
  const { lines, more } = await statementLines(viewer, { accountId: account }, SHOWN);
  return {
    cylinder: head,
    ...stampsView(row),
    ...roomView(viewer, row, { refrigerant: head.refrigerant, contents }),
    contents: contents.map(({ holding: { refrigerant, state, owner }, grams }) => ({
      refrigerant,
      grams,
      owner: owner === null ? null : (customers.get(owner) ?? null),
      state,
    })),
    doubts: taints.map((taint) => doubtView(taint, head.netGrams)),
    accountId: account,
    movements: [...lines],
    moreMovements: more,
    number: await feedNumber(viewer),
  };
}

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
  const today = viewer.world.calendar.dayOf(viewer.now, viewer.tenant.timeZone);
  const tareGrams = tareOf(row).grams;
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

type TaintRow = Awaited<ReturnType<typeof openTaints>>[number];
function doubtView(row: TaintRow, contentsGrams: number): CylinderView['doubts'][number] {
  const taint = asTaint(row);
  const verdict = taintVerdict({ taints: [taint], contentsGrams });
  const bound =
    taint.highGrams === null
      ? 'no bound on the air that may be in it'
      : `at most ${boundText(taint.highGrams)} g of air`;
  return {
    cause: row.cause,
    title: verdict.labels.join(', '),
    text: `It was ${wordOf(TAINT_WORDS_LONG, row.cause)}: ${bound}.`,
    visitId: row.visitId,
    lowGrams: taint.lowGrams,
    highGrams: taint.highGrams,
    minutes: row.minutes === null ? null : Number(row.minutes),
    blocks: verdict.use === 'blocked',
    at: toInstant(row.createdAt),
  };
}
/** Rounded up: a bound that is rounded down is none. */
const boundText = (grams: number): string => (Math.ceil(grams * 100) / 100).toString();
