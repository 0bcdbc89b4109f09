/** A cylinder that is not to be used until somebody has looked at it, and one that may be again. */
import type { CommandBody } from '@ullage/contracts';
import { cylinderAccount } from '../gas/accounts.ts';
import { refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact } from './facts.ts';

interface Hold {
  readonly factId: string;
  readonly at: string;
  readonly cylinderId: string;
  readonly why: string;
}
const noteHold = async (
  desk: Case,
  kind: 'cylinder-held' | 'cylinder-released',
  { factId, at, cylinderId, why }: Hold,
): Promise<void> => {
  await addFact(desk, {
    id: factId,
    kind,
    at: { instant: at },
    body: { why },
    refs: [{ role: 'cylinder', cylinderId }],
  });
  desk.accounts.add(await cylinderAccount(desk, cylinderId));
  desk.changed('cylinder', cylinderId);
};

/** A doubt of its own that no air check clears: whatever was suspected, a person lets it go. */
export async function setAside(desk: Case, hold: Hold): Promise<void> {
  const { cylinderId, at } = hold;
  await lock(desk.tx, desk.tenantId, { gas: { cylinderIds: [cylinderId], since: at, onlyDoubts: true } });
  await noteHold(desk, 'cylinder-held', hold);
}

export async function releaseCylinder(desk: Case, received: Received<CommandBody<'release-cylinder'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { cylinderId, why } = received.body;
  await lock(tx, tenantId, { gas: { cylinderIds: [cylinderId], since: received.happenedAt, onlyDoubts: true } });
  const accountId = await cylinderAccount(desk, cylinderId);
  const open = { tenantId, accountId, cause: 'set-aside', withdrawnAt: null, clearedByFact: null };
  if ((await tx.taint.count({ where: open })) === 0)
    throw refuseField('cylinderId', 'Cylinder: is not set aside, or somebody has released it already.');
  await noteHold(desk, 'cylinder-released', { factId: received.id, at: received.happenedAt, cylinderId, why });
}
