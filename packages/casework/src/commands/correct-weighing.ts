import type { CommandBody, Mass } from '@ullage/contracts';
import { correct, standingOf } from '@ullage/gasbook';
import { enterFact, enterMovements, movementsOf } from '../gas/movement-rows.ts';
import type { BookedMovement } from '../gas/movement-rows.ts';
import { circuitAccount, cylinderAccount } from '../gas/accounts.ts';
import { notFound, refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { addFact, lockedVisit } from './facts.ts';
import { postingsOf } from './gas-moves.ts';
import { tareOf } from './register.ts';
import { gramsBetween, keepWeighings } from './weigh.ts';

type Body = CommandBody<'correct-weighing'>;

/** A wrong weight put right. The first reading stays in the record; the books get its reversal and the right movement. */
export async function correctWeighing(desk: Case, received: Received<Body>): Promise<void> {
  const { body } = received;
  const wrong = await gasFact(desk, body.factId);
  const { visitId, circuitId, cylinderId } = wrong;
  await lockedVisit(desk, { visitId, circuitId, cylinderId });
  const at = wrong.at;
  const standing = await readingsOf(desk, wrong.id);
  const weighed = {
    cylinderId,
    factId: received.id,
    before: body.before ?? standing.before,
    after: body.after ?? standing.after,
    at,
    tareGrams: await tareOf(desk, cylinderId, at),
  };
  const grams = await gramsBetween(desk, weighed, wrong.kind === 'recovery' ? 'in' : 'out');
  const { factId, ...rest } = body;
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
  await keepWeighings(desk, { ...weighed, before: body.before, after: body.after });
  await replaceMovements(desk, { ...wrong, grams });
  desk.accounts.add(await circuitAccount(desk, circuitId));
  desk.accounts.add(await cylinderAccount(desk, cylinderId));
}

async function gasFact(desk: Case, id: string) {
  const row = await desk.tx.fact.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
    include: { factRefs: { where: { role: 'cylinder' } } },
  });
  if (!row) throw notFound();
  const cylinderId = row.factRefs[0]?.cylinderId;
  if (!['recovery', 'charge'].includes(row.kind) || !cylinderId || !row.visitId || !row.circuitId || !row.happenedAt) {
    throw refuseField('factId', 'Correction: only the weights of a recovery or a charge can be put right.');
  }
  return {
    id,
    kind: row.kind,
    visitId: row.visitId,
    circuitId: row.circuitId,
    cylinderId,
    at: row.happenedAt.toISOString(),
  };
}

/** Both readings of a gas fact as they stand: the last correction of each, else the first. */
export async function readingsOf(
  desk: Pick<Case, 'tx' | 'tenantId'>,
  factId: string,
): Promise<{ before: Mass; after: Mass }> {
  const rows = await desk.tx.weighing.findMany({
    where: { tenantId: desk.tenantId, OR: [{ factId }, { fact: { correctsId: factId } }] },
    orderBy: [{ fact: { recordedAt: 'asc' } }, { id: 'asc' }],
  });
  const last = (role: string): Mass => {
    const row = rows.findLast((reading) => reading.role === role);
    if (!row) throw notFound();
    return { value: row.value, unit: row.unit as Mass['unit'] };
  };
  return { before: last('before'), after: last('after') };
}

async function replaceMovements(desk: Case, act: Awaited<ReturnType<typeof gasFact>> & { grams: number }) {
  const account = await circuitAccount(desk, act.circuitId);
  const all = await movementsOf(desk.tx, desk.tenantId, [account]);
  const [wrong] = standingOf(all).filter((movement) => movement.factId === act.id && movement.derived === undefined);
  if (!wrong) {
    // The first reading moved nothing; now it has.
    const rest = { factId: act.id, visitId: act.visitId, measured: 'scale' } as const;
    await enterFact(desk, await postingsOf(desk, act), rest);
    return;
  }
  const recordedAt = desk.recordedAt;
  const right: BookedMovement | null =
    act.grams === 0 ? null : { ...wrong, id: desk.world.newId(), recordedAt, grams: act.grams };
  await enterMovements(desk, correct({ wrong, right, reversal: { id: desk.world.newId(), recordedAt } }));
}
