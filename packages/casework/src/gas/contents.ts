import type { GasState, Portion, Taint, TaintCause } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import { cylinderRoom } from '@ullage/thermo';

/** What the books say is in a cylinder: holdings above zero. */
export async function contentsOf(tx: Tx, tenantId: string, accountId: string): Promise<Portion[]> {
  const rows = await tx.balance.findMany({
    where: { tenantId, accountId, grams: { gt: 0 } },
    orderBy: { refrigerant: 'asc' },
  });
  return rows.map((row) => ({
    holding: {
      refrigerant: row.refrigerant,
      owner: row.owner === tenantId ? null : row.owner,
      state: row.state as GasState,
    },
    grams: Number(row.grams),
  }));
}

/** The gas a cylinder was registered with; null for one that came empty. */
export async function registeredGas(tx: Tx, tenantId: string, cylinderId: string): Promise<string | null> {
  const fact = await tx.fact.findFirst({
    where: { tenantId, kind: 'cylinder-registered', factRefs: { some: { cylinderId } } },
    select: { body: true },
  });
  return (fact?.body as { gas?: { refrigerant: string } } | undefined)?.gas?.refrigerant ?? null;
}

/** Doubts about an account that nothing has cleared. */
export async function openTaints(tx: Tx, tenantId: string, accountId: string) {
  return tx.taint.findMany({
    where: { tenantId, accountId, clearedByFact: null, withdrawnAt: null },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
  });
}
export const asTaint = (row: { cause: string; lowGrams: unknown; highGrams: unknown }): Taint => ({
  cause: row.cause as TaintCause,
  lowGrams: Number(row.lowGrams ?? 0),
  highGrams: row.highGrams === null ? null : Number(row.highGrams),
});

interface CylinderStamps {
  readonly kind: string;
  readonly specification: string;
  readonly waterCapacityKg: unknown;
  readonly servicePressureKpaGauge: unknown;
  readonly testedMonth: string | null;
}
/** Room, limits and reasons for one refrigerant, with what the cylinder holds now. Undefined for a gas that physics does not know. */
export function roomOf(
  cylinder: CylinderStamps,
  given: { refrigerant: string; contents: readonly Portion[]; tareGrams: number; today: string },
) {
  const { refrigerant, contents, tareGrams, today } = given;
  const netGrams = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const contentsKg = Object.fromEntries(contents.map((portion) => [portion.holding.refrigerant, portion.grams / 1000]));
  const room = cylinderRoom({
    refrigerant,
    waterCapacityKg: Number(cylinder.waterCapacityKg),
    tareKg: tareGrams / 1000,
    grossKg: (tareGrams + netGrams) / 1000,
    kind: cylinder.kind as 'disposable' | 'refillable' | 'recovery',
    specification: cylinder.specification,
    contentsKg,
    todayOn: today,
    ...(cylinder.servicePressureKpaGauge === null
      ? {}
      : { servicePressureKpaGauge: Number(cylinder.servicePressureKpaGauge) }),
    ...(cylinder.testedMonth === null
      ? {}
      : { lastTest: { month: cylinder.testedMonth, kind: 'hydrostatic' as const } }),
  });
  return room.ok ? room : undefined;
}
