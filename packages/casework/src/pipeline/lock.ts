import type { Tx } from '@ullage/database';

/** What a command is about to change. Locked in one order everywhere, so that two commands wait instead of deadlocking. */
export interface Wanted {
  readonly visitId?: string | undefined;
  readonly circuitIds?: readonly string[];
  /** Given, if only as an empty list, when gas moves: the accounts are then locked too. */
  readonly cylinderIds?: readonly string[] | undefined;
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
  if (wanted.cylinderIds !== undefined) {
    const cylinderIds = [...wanted.cylinderIds];
    await tx.$queryRaw`
      SELECT id FROM gas_account WHERE tenant_id = ${tenantId}::uuid
      AND (circuit_id = ANY(${circuitIds}::uuid[]) OR cylinder_id = ANY(${cylinderIds}::uuid[])) ORDER BY id FOR NO KEY UPDATE`;
    await tx.$queryRaw`
      SELECT id FROM gas_account WHERE tenant_id = ${tenantId}::uuid AND cylinder_id IS NULL AND circuit_id IS NULL
      ORDER BY id FOR NO KEY UPDATE`;
  }
}
