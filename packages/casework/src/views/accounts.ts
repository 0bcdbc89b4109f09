/** Gas accounts by name, with the record each belongs to. */
import type { AccountRef } from '@ullage/contracts';
import { notFound } from '../pipeline/case.ts';
import type { Viewer } from './viewer.ts';
import { ACCOUNT_WORDS, wordOf } from './words.ts';

export const ACCOUNT_INCLUDE = {
  cylinder: { select: { serial: true, label: true } },
  circuit: { select: { letter: true, unitId: true, unit: { select: { tag: true } } } },
} as const;
interface AccountRow {
  readonly id: string;
  readonly kind: string;
  readonly cylinderId: string | null;
  readonly cylinder: { readonly serial: string; readonly label: string | null } | null;
  readonly circuit: {
    readonly letter: string;
    readonly unitId: string;
    readonly unit: { readonly tag: string };
  } | null;
}

const titleOf = ({ kind, cylinder, circuit }: AccountRow): string => {
  if (cylinder) return cylinder.label ?? cylinder.serial;
  return circuit ? `${circuit.unit.tag}-${circuit.letter}` : wordOf(ACCOUNT_WORDS, kind);
};
export const accountRef = (row: AccountRow): AccountRef => ({
  id: row.id,
  kind: row.kind,
  title: titleOf(row),
  cylinderId: row.cylinderId,
  unitId: row.circuit?.unitId ?? null,
  circuitLetter: row.circuit?.letter ?? null,
});

/** Some accounts by id. */
export async function accountRefs({ tx, tenantId }: Viewer, ids: readonly string[]): Promise<Map<string, AccountRef>> {
  const rows = await tx.gasAccount.findMany({
    where: { tenantId, id: { in: [...new Set(ids)] } },
    include: ACCOUNT_INCLUDE,
  });
  return new Map(rows.map((row) => [row.id, accountRef(row)]));
}

/** @throws Refusal not-found */
export async function accountOf(viewer: Viewer, id: string): Promise<AccountRef> {
  const account = (await accountRefs(viewer, [id])).get(id);
  if (!account) throw notFound();
  return account;
}
