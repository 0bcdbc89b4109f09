import { Refusal } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import type { Actor, World } from '../office.ts';
import type { Records } from '../recalls/checks.ts';
import type { TenantSettings } from '../pipeline/case.ts';

/** One reading of one contractor's records, inside one transaction. */
export interface Viewer {
  readonly tx: Tx;
  readonly world: World;
  readonly actor: Actor;
  readonly tenantId: string;
  readonly tenant: TenantSettings;
  readonly now: Instant;
}

export function look<T>(world: World, actor: Actor, read: (viewer: Viewer) => Promise<T>): Promise<T> {
  return world.database.inTenant(actor.tenantId, async (tx) => {
    const tenant = await tx.tenant.findUnique({ where: { id: actor.tenantId } });
    if (!tenant) throw new Refusal('not-allowed', 'You do not belong to this contractor any more.');
    return read({ tx, world, actor, tenantId: actor.tenantId, tenant, now: world.now() });
  });
}

/** Where instruments and what was done with them are read from. */
export const recordsOf = ({
  tx,
  tenantId,
  world,
  tenant,
}: Pick<Viewer, 'tx' | 'tenantId' | 'world' | 'tenant'>): Records => ({
  tx,
  tenantId,
  calendar: world.calendar,
  zone: tenant.timeZone,
});

/** The number of the last change of this contractor: what a screen shows is as of then. */
export async function feedNumber({ tx, tenantId }: Viewer): Promise<number> {
  const counter = await tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
  return Number(counter.number);
}
