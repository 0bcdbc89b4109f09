/** Facts that move no gas, but bear on what is doubted about it. */
import type { Instant } from '@ullage/units';
import { toDate, toInstant } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { circuitAccount, cylinderAccount } from './accounts.ts';

/** What was read of a circuit's gas, or a vacuum that held, bears on the doubts about it and on what was taken out since. */
export async function rethinkCircuit(desk: Case, { circuitId, since }: { circuitId: string; since: Instant }) {
  await lock(desk.tx, desk.tenantId, { circuitIds: [circuitId], gas: { since, onlyDoubts: true } });
  desk.accounts.add(await circuitAccount(desk, circuitId));
}

interface OfLeaks {
  readonly circuitId: string;
  readonly visitId: string;
  readonly since: Instant;
}
/** What is said of a circuit's leaks bears on the air that recoveries let in, since then or at the same visit. */
export async function rethinkRecoveries(desk: Case, { circuitId, visitId, since }: OfLeaks): Promise<void> {
  const { tx, tenantId } = desk;
  const rows = await tx.fact.findMany({
    where: { tenantId, circuitId, kind: 'recovery', OR: [{ visitId }, { happenedAt: { gte: toDate(since) } }] },
    select: { happenedAt: true, body: true, factRefs: { where: { role: 'cylinder' }, select: { cylinderId: true } } },
    orderBy: { happenedAt: 'asc' },
  });
  const open = rows.filter(({ body }) => (body as { openLeak?: boolean }).openLeak === true);
  const first = open[0]?.happenedAt;
  if (!first) return;
  const cylinderIds = open.flatMap(({ factRefs }) => factRefs.flatMap(({ cylinderId }) => cylinderId ?? []));
  await lock(tx, tenantId, { gas: { cylinderIds, since: toInstant(first), onlyDoubts: true } });
  for (const id of cylinderIds) desk.accounts.add(await cylinderAccount(desk, id));
}
