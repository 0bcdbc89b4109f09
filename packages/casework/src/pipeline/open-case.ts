import { Refusal } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { Case } from './case.ts';
import { idsFrom } from './ids.ts';

/** Opens a case for a command: who acts, for which contractor, at what instant it is written down. */
export async function openCase(given: { world: World; actor: Actor; tx: Tx; commandId: string }): Promise<Case> {
  const { actor, tx, commandId } = given;
  const { tenantId, userId, takenOver } = actor;
  const tenant = await tx.tenant.findUnique({ where: { id: tenantId } });
  const who = takenOver === undefined ? { userId } : { id: takenOver.personId };
  const person = await tx.person.findFirst({ where: { tenantId, ...who } });
  if (!tenant || !person) throw new Refusal('not-allowed', 'You do not belong to this contractor any more.');
  if (tenant.takingOver && takenOver === undefined)
    throw new Refusal('not-possible', 'A file is being taken over; wait until that has ended.');
  const recordedAt = given.world.now();
  const newId = idsFrom(given.world.calendar, { cause: commandId, at: recordedAt });
  return new Case({ tx, world: { ...given.world, newId }, actor, tenant, person, recordedAt, commandId });
}
