import type { AccountKind, OutsideAccounts } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import { notFound } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';

export type OutsideKind = Exclude<AccountKind, 'cylinder' | 'circuit'>;

/** Ids of a contractor's outside accounts, by kind. They exist since the contractor does. */
export async function outsideAccounts(tx: Tx, tenantId: string): Promise<Record<OutsideKind, string>> {
  const rows = await tx.gasAccount.findMany({ where: { tenantId, cylinderId: null, circuitId: null } });
  const byKind = Object.fromEntries(rows.map((row) => [row.kind, row.id]));
  return byKind as Record<OutsideKind, string>;
}

/** The part of them that derived postings meet. */
export const derivedAgainst = (all: Record<OutsideKind, string>): OutsideAccounts => ({
  opening: all.opening,
  supplier: all.supplier,
  reclaimer: all.reclaimer,
  destroyer: all.destroyer,
  atmosphere: all.atmosphere,
  discrepancy: all.discrepancy,
});

/** The account of a circuit. @throws Refusal not-found */
export async function circuitAccount(desk: Case, circuitId: string): Promise<string> {
  const row = await desk.tx.gasAccount.findUnique({
    where: { tenantId_circuitId: { tenantId: desk.tenantId, circuitId } },
    select: { id: true },
  });
  if (!row) throw notFound();
  return row.id;
}

/** The account of a cylinder. @throws Refusal not-found */
export async function cylinderAccount(desk: Pick<Case, 'tx' | 'tenantId'>, cylinderId: string): Promise<string> {
  const row = await desk.tx.gasAccount.findUnique({
    where: { tenantId_cylinderId: { tenantId: desk.tenantId, cylinderId } },
    select: { id: true, cylinder: { select: { withdrawnAt: true } } },
  });
  if (!row || row.cylinder?.withdrawnAt) throw notFound();
  return row.id;
}
