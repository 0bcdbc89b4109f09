/** Reports of the keeper's that were a slip. */
import type { CommandBody } from '@ullage/contracts';
import { lastStep } from '@ullage/gasbook';
import { custodySteps, settleCustody, STANDS } from '../gas/custody.ts';
import { standingAcceptances } from '../gas/shipments.ts';
import { notFound, refuseField, toInstant } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { addFact } from './facts.ts';
import { closeLost, lockEach } from './keeping.ts';

/** A report that was a slip. Only what moved a cylinder last can be taken back: what came later rests on it. */
export async function takeBack(desk: Case, received: Received<CommandBody<'take-back'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { factId, why } = received.body;
  const fact = await tx.fact.findUnique({
    where: { tenantId_id: { tenantId, id: factId }, kind: { in: TAKEN_BACK } },
    include: { factRefs: { where: { cylinderId: { not: null } }, select: { cylinderId: true } } },
  });
  if (!fact) throw notFound();
  const ids = [...new Set(fact.factRefs.flatMap(({ cylinderId }) => cylinderId ?? []))];
  const accounts = await lockEach(desk, ids, toInstant(fact.happenedAt ?? fact.recordedAt));
  await assertLast(desk, fact, ids);
  await addFact(desk, {
    id: received.id,
    kind: 'taken-back',
    at: { instant: received.happenedAt },
    body: { why, what: fact.kind },
    refs: ids.map((cylinderId) => ({ role: 'cylinder', cylinderId })),
    corrects: factId,
  });
  for (const account of accounts) desk.accounts.add(account);
  await settleCustody(desk, ids);
  if (fact.kind === 'cylinder-lost') for (const id of ids) await closeLost(desk, id);
}
const TAKEN_BACK = [
  'hand-over',
  'shipment',
  'acceptance',
  'cylinder-lost',
  'cylinder-found',
  'cylinder-returned',
  'cylinder-scrapped',
];

/** @throws Refusal for a report that does not stand, or that something else rests on */
async function assertLast(desk: Case, fact: { id: string; kind: string }, ids: readonly string[]): Promise<void> {
  const { tx, tenantId } = desk;
  if ((await tx.fact.count({ where: { tenantId, id: fact.id, ...STANDS } })) === 0)
    throw refuseField('factId', 'Report: is taken back already.');
  if (fact.kind === 'shipment' && (await standingAcceptances(desk, [fact.id])).size > 0)
    throw refuseField('factId', 'Manifest: some of it is accepted; take the acceptance back first.');
  for (const [id, steps] of await custodySteps(desk, ids)) {
    const own = steps.some((step) => step.factId === fact.id);
    if (own && lastStep(steps)?.factId !== fact.id) throw await movedSince(desk, id);
  }
}

async function movedSince(desk: Case, id: string) {
  const { serial, label } = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
  });
  return refuseField('factId', `Report: ${label ?? serial} was moved since; take back what came later first.`);
}
