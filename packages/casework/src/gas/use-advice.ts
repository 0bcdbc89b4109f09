/** What the phone asks before an act: what stops it, what to think of first, and whether a reason is wanted. */
import type { CylinderUseAdvice, CylinderUseQuery } from '@ullage/contracts';
import { composition, stops, warnings } from '@ullage/gasbook';
import type { Act, Portion, Taint } from '@ullage/gasbook';
import { notFound, refuseField } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';
import { contentsOf, openDoubts, taintsOfRows } from './contents.ts';
import { fillingLimits } from './filling.ts';

interface Inside {
  readonly contents: readonly Portion[];
  readonly taints: readonly Taint[];
  readonly lost: boolean;
}
async function insideOf({ tx, tenantId }: Viewer, cylinderId: string): Promise<Inside> {
  const account = await tx.gasAccount.findUnique({
    where: { tenantId_cylinderId: { tenantId, cylinderId } },
    select: { id: true, cylinder: { select: { lostAt: true, withdrawnAt: true } } },
  });
  if (!account || account.cylinder?.withdrawnAt) throw notFound();
  const contents = await contentsOf(tx, tenantId, account.id);
  return {
    contents,
    taints: taintsOfRows(await openDoubts(tx, tenantId, account.id)),
    lost: (account.cylinder?.lostAt ?? null) !== null,
  };
}

type Asked = CylinderUseQuery & { readonly cylinderId: string };

/** Stops and warnings for an act, as the books stand now. */
export async function cylinderUse(viewer: Viewer, asked: Asked): Promise<CylinderUseAdvice> {
  const act = asked.act === 'transfer' ? await transferOf(viewer, asked) : await circuitActOf(viewer, asked);
  const warned = warnings(act);
  return {
    stops: stops(act).map(({ code, text, clause }) => ({ code, text, clause: clause ?? null })),
    warnings: warned,
    reasonNeeded: act.act === 'charge' && warned.length > 0,
    roomGrams: act.act === 'charge' ? null : act.roomGrams,
    caution: 'Local codes, the maker’s instructions and licensed practice rule beside this.',
  };
}

async function circuitActOf(viewer: Viewer, { act, cylinderId, circuitId, grams }: Asked): Promise<Act> {
  const { tx, tenantId, now: at } = viewer;
  const inside = await insideOf(viewer, cylinderId);
  if (circuitId === undefined) throw refuseField('circuitId', 'Circuit: say which one; choose it from the visit.');
  const circuit = await tx.circuit.findUnique({
    where: { tenantId_id: { tenantId, id: circuitId } },
    select: { refrigerant: true, withdrawnAt: true, unit: { select: { site: { select: { customerId: true } } } } },
  });
  if (!circuit || circuit.withdrawnAt) throw notFound();
  const { refrigerant } = circuit;
  if (act === 'charge') return { act, refrigerant, ...inside, circuitOwner: circuit.unit.site.customerId };
  const limits = await fillingLimits(viewer, { cylinderId, refrigerant, at, contents: inside.contents });
  return { act: 'recovery', refrigerant, ...inside, ...limits, grams: grams ?? null };
}

async function transferOf(viewer: Viewer, { cylinderId, intoId, grams }: Asked): Promise<Act> {
  const from = await insideOf(viewer, cylinderId);
  if (intoId === undefined) throw refuseField('intoId', 'Cylinder: say which one it would go into.');
  const into = await insideOf(viewer, intoId);
  const refrigerant = composition(from.contents)[0]?.refrigerant;
  if (refrigerant === undefined) throw refuseField('act', 'Cylinder: nothing is in it by the books; weigh it first.');
  const { contents } = into;
  const limits = await fillingLimits(viewer, { cylinderId: intoId, refrigerant, at: viewer.now, contents });
  const source = { source: from.contents, sourceTaints: from.taints };
  const lost = from.lost || into.lost;
  return { act: 'transfer', refrigerant, ...into, lost, ...limits, ...source, grams: grams ?? null };
}
