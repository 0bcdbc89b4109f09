import { Refusal } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { Case } from './case.ts';

/** Opens a case for a command: who acts, for which contractor, at what instant it is written down. */
export async function openCase(given: { world: World; actor: Actor; tx: Tx; commandId: string }): Promise<Case> {
  const { world, actor, tx, commandId } = given;
  const tenant = await tx.tenant.findUnique({ where: { id: actor.tenantId } });
  const person = await tx.person.findFirst({ where: { tenantId: actor.tenantId, userId: actor.userId } });
  if (!tenant || !person) throw new Refusal('not-allowed', 'You do not belong to this contractor any more.');
  return new Case({ tx, world, actor, tenant, person, recordedAt: world.now(), commandId });
}
