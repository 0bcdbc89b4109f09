import { toInstant } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';

/** The day on which gas last went into each of some cylinders by an act; not there for one that nothing went into. */
export async function filledOn(
  { tx, tenantId, world, tenant }: Pick<Viewer, 'tx' | 'tenantId' | 'world' | 'tenant'>,
  accountIds: readonly string[],
): Promise<Map<string, string>> {
  const rows = await tx.movement.groupBy({
    by: ['toId'],
    // Neither a reversal, which comes back into the account that it first left, nor what was reversed.
    where: { tenantId, toId: { in: [...accountIds] }, derivedCause: null, correctsId: null, movementCorrects: null },
    _max: { happenedAt: true },
  });
  return new Map(
    rows.flatMap(({ toId, _max: { happenedAt } }) =>
      happenedAt ? [[toId, world.calendar.dayOf(toInstant(happenedAt), tenant.timeZone)] as const] : [],
    ),
  );
}
