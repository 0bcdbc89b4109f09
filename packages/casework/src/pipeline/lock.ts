import type { Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import { toDate } from './case.ts';

/** What a command is about to change. Locked in one order everywhere, so that two commands wait instead of deadlocking. */
export interface Wanted {
  readonly visitId?: string | undefined;
  readonly circuitIds?: readonly string[];
  readonly gas?: WantedGas | undefined;
}
/** Given when gas moves, or when what is known of it changes: the accounts are then locked too. */
export interface WantedGas {
  readonly cylinderIds?: readonly string[];
  /** When it happened: gas that has gone on since is followed, so the accounts that it reached are locked with the rest. */
  readonly since: Instant;
  /** Only what is doubted can change, and nothing is posted: the outside accounts are left to others. */
  readonly onlyDoubts?: boolean;
}

/** Locks visit, circuits by id, then the gas accounts of circuits and cylinders by id, then the outside accounts by id. */
export async function lock(tx: Tx, tenantId: string, wanted: Wanted): Promise<void> {
  const circuitIds = [...(wanted.circuitIds ?? [])];
  if (wanted.visitId !== undefined) {
    await tx.$queryRaw`SELECT id FROM visit WHERE tenant_id = ${tenantId}::uuid AND id = ${wanted.visitId}::uuid FOR NO KEY UPDATE`;
  }
  if (circuitIds.length > 0) {
    await tx.$queryRaw`SELECT id FROM circuit WHERE tenant_id = ${tenantId}::uuid AND id = ANY(${circuitIds}::uuid[]) ORDER BY id FOR NO KEY UPDATE`;
  }
  if (!wanted.gas) return;
  const { cylinderIds = [], since, onlyDoubts = false } = wanted.gas;
  const own = await tx.$queryRaw<{ id: string }[]>`
    SELECT id FROM gas_account WHERE tenant_id = ${tenantId}::uuid
    AND (circuit_id = ANY(${circuitIds}::uuid[]) OR cylinder_id = ANY(${[...cylinderIds]}::uuid[]))`;
  await lockReached(tx, tenantId, { ids: own.map(({ id }) => id), since });
  if (!onlyDoubts) await lockOutside(tx, tenantId);
}

/** More can have been reached while this waited for a lock; then it is looked up once more. */
async function lockReached(tx: Tx, tenantId: string, from: { ids: readonly string[]; since: Instant }): Promise<void> {
  for (let locked = -1; ;) {
    const reached = await reachedFrom(tx, tenantId, from);
    if (reached.length === locked) return;
    await lockAccounts(tx, tenantId, reached);
    locked = reached.length;
  }
}

/** These accounts, and every cylinder and circuit that their gas has gone to since an instant. */
async function reachedFrom(
  tx: Tx,
  tenantId: string,
  { ids, since }: { ids: readonly string[]; since: Instant },
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    WITH RECURSIVE reached (id) AS (
      SELECT unnest(${[...ids]}::uuid[])
      UNION
      SELECT account.id FROM reached
      JOIN movement ON movement.tenant_id = ${tenantId}::uuid AND movement.from_id = reached.id AND movement.happened_at >= ${toDate(since)}
      JOIN gas_account account ON account.tenant_id = movement.tenant_id AND account.id = movement.to_id
        AND account.kind IN ('cylinder', 'circuit')
    ) SELECT id FROM reached`;
  return rows.map(({ id }) => id);
}

/** Locks accounts of cylinders and circuits, in the order of their ids. What is locked already stays so. */
export async function lockAccounts(tx: Tx, tenantId: string, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await tx.$queryRaw`
    SELECT id FROM gas_account WHERE tenant_id = ${tenantId}::uuid AND id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR NO KEY UPDATE`;
}

/** Locks the outside accounts: always after those of cylinders and circuits. */
export async function lockOutside(tx: Tx, tenantId: string): Promise<void> {
  await tx.$queryRaw`
    SELECT id FROM gas_account WHERE tenant_id = ${tenantId}::uuid AND cylinder_id IS NULL AND circuit_id IS NULL
    ORDER BY id FOR NO KEY UPDATE`;
}
