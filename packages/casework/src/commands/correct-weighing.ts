import type { CommandBody } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { standingAct } from '@ullage/gasbook';
import type { WeighedAct } from '@ullage/gasbook';
import { cylinderAccount } from '../gas/accounts.ts';
import { correctionOf, SIDES, weighedAct } from '../gas/corrections.ts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { askAboutCorrections, correctionsOf } from './corrected-twice.ts';
import { addFact } from './facts.ts';
import { tareOf } from './register.ts';
import { assertCanHold, keepWeighings, wrongWay } from './weigh.ts';

type Body = CommandBody<'correct-weighing'>;

/**
 * A wrong weight put right. The first reading stays in the record; what the books then show follows by replay. Of several
 * corrections the one made last stands, whatever arrived first.
 */
export async function correctWeighing(desk: Case, received: Received<Body>): Promise<void> {
  const { body } = received;
  const wrong = await gasFact(desk, body);
  const { visitId, circuitId, cylinderId, at } = wrong;
  await lock(desk.tx, desk.tenantId, {
    visitId,
    circuitIds: circuitId === undefined ? [] : [circuitId],
    gas: { cylinderIds: wrong.cylinderIds, since: at },
  });
  const { factId, ...rest } = body;
  const own = correctionOf({ id: received.id, happenedAt: toDate(received.happenedAt), body });
  const others = await correctionsOf(desk, { factId, cylinderId });
  const standing = standingAct(wrong.act, [...others, own]);
  // Possible by itself or among the others: which of them came first must not decide.
  if (standing.setAside.has(own.id) && standingAct(wrong.act, [own]).setAside.has(own.id)) throw wrongWay(wrong.act);
  const weighed = { cylinderId, tareGrams: await tareOf(desk, cylinderId, at), before: body.before, after: body.after };
  await assertCanHold(desk, weighed);
  await addFact(desk, {
    id: received.id,
    kind: 'correction',
    visitId,
    circuitId,
    at: { instant: received.happenedAt },
    body: rest,
    refs: [{ role: 'cylinder', cylinderId }],
    corrects: factId,
  });
  await keepWeighings(desk, { ...weighed, factId: received.id, at });
  askAboutCorrections(desk, { act: wrong, standing, own: { ...own, by: desk.person }, others });
  for (const id of wrong.cylinderIds) desk.accounts.add(await cylinderAccount(desk, id));
  const circuit = circuitId === undefined ? null : await accountOfCircuit(desk, circuitId);
  if (circuit !== null) desk.accounts.add(circuit);
}

async function accountOfCircuit(desk: Case, circuitId: string): Promise<string | null> {
  const { tenantId } = desk;
  const row = await desk.tx.gasAccount.findUnique({ where: { tenantId_circuitId: { tenantId, circuitId } } });
  return row?.id ?? null;
}

const INCLUDE = {
  factRefs: {
    where: { role: { in: [...SIDES] } },
    select: { role: true, cylinderId: true, cylinder: { select: { label: true, serial: true } } },
  },
} satisfies Prisma.FactInclude;

/** The act whose weights are put right, and which of its cylinders was read wrong. */
async function gasFact(desk: Case, { factId: id, cylinderId: asked }: Body) {
  const row = await desk.tx.fact.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
    include: INCLUDE,
  });
  if (!row || (asked !== undefined && !(await isKnown(desk, asked)))) throw notFound();
  const weighed = SIDES.flatMap((side): Weighed[] => {
    const act = weighedAct(row, side);
    const ref = row.factRefs.find(({ role }) => role === side);
    return act && ref?.cylinderId ? [{ act, cylinderId: ref.cylinderId, cylinder: nameOf(ref) }] : [];
  });
  if (weighed.length === 0 || !row.happenedAt)
    throw refuseField('factId', 'Correction: only the weights of a recovery, charge or transfer can be put right.');
  return {
    ...meantOf(weighed, asked),
    id,
    visitId: row.visitId ?? undefined,
    circuitId: row.circuitId ?? undefined,
    cylinderIds: row.factRefs.flatMap(({ cylinderId }) => cylinderId ?? []),
    at: row.happenedAt.toISOString(),
  };
}

interface Weighed {
  readonly act: WeighedAct;
  readonly cylinderId: string;
  readonly cylinder: string;
}
const nameOf = ({ cylinder }: { cylinder: { label: string | null; serial: string } | null }): string =>
  cylinder?.label ?? cylinder?.serial ?? 'a cylinder';

/** @throws Refusal where it is not clear which cylinder is meant */
function meantOf(weighed: readonly Weighed[], asked: string | undefined): Weighed {
  const [only, other] = weighed;
  const meant = asked === undefined && !other ? only : weighed.find(({ cylinderId }) => cylinderId === asked);
  if (!meant) throw refuseField('cylinderId', 'Cylinder: say which of those that were weighed was read wrong.');
  return meant;
}

const isKnown = async (desk: Case, id: string): Promise<boolean> =>
  (await desk.tx.cylinder.count({ where: { tenantId: desk.tenantId, withdrawnAt: null, id } })) > 0;
