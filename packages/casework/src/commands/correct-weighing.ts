import type { CommandBody } from '@ullage/contracts';
import { correct, gramsMoved, standingAct, standingOf } from '@ullage/gasbook';
import type { StandingAct, WeighedAct } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { circuitAccount, cylinderAccount } from '../gas/accounts.ts';
import { correctionOf, weighedAct } from '../gas/corrections.ts';
import { enterFact, enterMovements, movementsOf } from '../gas/movement-rows.ts';
import type { BookedMovement } from '../gas/movement-rows.ts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { askAboutCorrections, correctionsOf } from './corrected-twice.ts';
import { addFact, lockedVisit } from './facts.ts';
import { postingsOf } from './gas-moves.ts';
import { tareOf } from './register.ts';
import { assertCanHold, keepWeighings, wrongWay } from './weigh.ts';

type Body = CommandBody<'correct-weighing'>;

/**
 * A wrong weight put right. The first reading stays in the record; the books get its reversal and the right movement. Of
 * several corrections the one made last stands, whatever arrived first.
 */
export async function correctWeighing(desk: Case, received: Received<Body>): Promise<void> {
  const { body } = received;
  const wrong = await gasFact(desk, body.factId);
  const { visitId, circuitId, cylinderId, at } = wrong;
  await lockedVisit(desk, { visitId, circuitId, cylinderId });
  const { factId, ...rest } = body;
  const own = correctionOf({ id: received.id, happenedAt: toDate(received.happenedAt), body });
  const others = await correctionsOf(desk, factId);
  const standing = standingAct(wrong.act, [...others, own]);
  // Possible by itself or among the others: which of them came first must not decide.
  if (standing.setAside.has(own.id) && standingAct(wrong.act, [own]).setAside.has(own.id))
    throw wrongWay(wrong.act.direction);
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
  await replaceMovements(desk, { ...wrong, grams: gramsOf(wrong.act, standing) });
  askAboutCorrections(desk, { act: wrong, standing, own: { ...own, by: desk.person }, others });
  desk.accounts.add(await circuitAccount(desk, circuitId));
  desk.accounts.add(await cylinderAccount(desk, cylinderId));
}

async function gasFact(desk: Case, id: string) {
  const row = await desk.tx.fact.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
    include: {
      factRefs: { where: { role: 'cylinder' }, include: { cylinder: { select: { label: true, serial: true } } } },
    },
  });
  if (!row) throw notFound();
  const [ref] = row.factRefs;
  const act = weighedAct(row);
  if (!act || !ref?.cylinderId || !row.visitId || !row.circuitId || !row.happenedAt) {
    throw refuseField('factId', 'Correction: only the weights of a recovery or a charge can be put right.');
  }
  return {
    id,
    kind: row.kind,
    act,
    visitId: row.visitId,
    circuitId: row.circuitId,
    cylinderId: ref.cylinderId,
    cylinder: ref.cylinder?.label ?? ref.cylinder?.serial ?? 'a cylinder',
    at: row.happenedAt.toISOString(),
  };
}

function gramsOf({ direction }: WeighedAct, { said }: StandingAct): number {
  const weighing = (mass: EnteredMass) => ({ grossGrams: bookedGrams(mass), tareGrams: 0 });
  const moved = gramsMoved({ direction, before: weighing(said.before), after: weighing(said.after) });
  return moved.moved ? moved.grams : 0;
}

async function replaceMovements(desk: Case, act: Awaited<ReturnType<typeof gasFact>> & { grams: number }) {
  const account = await circuitAccount(desk, act.circuitId);
  const all = await movementsOf(desk.tx, desk.tenantId, [account]);
  const [wrong] = standingOf(all).filter((movement) => movement.factId === act.id && movement.derived === undefined);
  if (!wrong) {
    // What stood before moved nothing; now it has.
    const rest = { factId: act.id, visitId: act.visitId, measured: 'scale' } as const;
    await enterFact(desk, await postingsOf(desk, act), rest);
    return;
  }
  const recordedAt = desk.recordedAt;
  const right: BookedMovement | null =
    act.grams === 0 ? null : { ...wrong, id: desk.world.newId(), recordedAt, grams: act.grams };
  await enterMovements(desk, correct({ wrong, right, reversal: { id: desk.world.newId(), recordedAt } }));
}
