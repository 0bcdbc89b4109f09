import type { CommandBody } from '@ullage/contracts';
import { cylinderAccount } from '../gas/accounts.ts';
import { assertHere } from '../gas/custody.ts';
import { notFound } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { assertInstrument, instrumentRef, recordFact } from './facts.ts';
import { tareOf } from './register.ts';
import { gramsBetween, keepWeighings } from './weigh.ts';

/**
 * Gas from one cylinder into another, in the shop or at a visit. What left the first is what was moved; where only the
 * second was weighed, what it gained. What the second shows beyond that stands in discrepancy.
 */
export async function recordTransfer(desk: Case, received: Received<CommandBody<'record-transfer'>>): Promise<void> {
  const { body, id: factId, happenedAt: at } = received;
  const cylinderIds = [body.from.cylinderId, body.to.cylinderId];
  await lock(desk.tx, desk.tenantId, { visitId: body.visitId, gas: { cylinderIds, since: at } });
  await assertVisit(desk, body.visitId);
  const accounts = [];
  for (const cylinderId of cylinderIds) accounts.push(await cylinderAccount(desk, cylinderId));
  // At a visit it happened: then it is booked and asked about.
  if (body.visitId === undefined)
    for (const side of ['from', 'to'] as const)
      await assertHere(desk, { cylinderId: body[side].cylinderId, field: `${side}/cylinderId`, at });
  await assertInstrument(desk, body.scaleId);
  const weighed = [];
  for (const [side, direction] of [
    ['from', 'out'],
    ['to', 'in'],
  ] as const) {
    const { cylinderId, weights } = body[side];
    if (!weights) continue;
    const tareGrams = await tareOf(desk, cylinderId, at);
    const one = { cylinderId, factId, ...weights, scaleId: body.scaleId, at, tareGrams };
    await gramsBetween(desk, one, { direction, under: `${side}/weights/` });
    weighed.push(one);
  }
  const refs = [
    { role: 'from', cylinderId: body.from.cylinderId },
    { role: 'to', cylinderId: body.to.cylinderId },
    ...instrumentRef('scale', body.scaleId),
  ];
  await recordFact(desk, received, { kind: 'transfer', refs });
  for (const one of weighed) await keepWeighings(desk, one);
  for (const account of accounts) desk.accounts.add(account);
}

/** @throws Refusal not-found unless the visit, where one is named, is known */
export async function assertVisit(desk: Case, id: string | undefined): Promise<void> {
  if (id === undefined) return;
  const row = await desk.tx.visit.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
    select: { id: true },
  });
  if (!row) throw notFound();
}
