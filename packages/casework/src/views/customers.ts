import type { Viewer } from './viewer.ts';

/** Names of customers by id. The contractor's own id, which owns what no customer does, is none of them. */
export async function customerNames(
  { tx, tenantId }: Viewer,
  ids: readonly (string | null)[],
): Promise<Map<string, string>> {
  const known = [...new Set(ids)].filter((id): id is string => id !== null && id !== tenantId);
  if (known.length === 0) return new Map();
  const rows = await tx.customer.findMany({
    where: { tenantId, id: { in: known } },
    select: { id: true, name: true },
  });
  return new Map(rows.map((row) => [row.id, row.name]));
}
