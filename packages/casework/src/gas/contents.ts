import { composition, taintsOf } from '@ullage/gasbook';
import type { GasState, Portion, Taint } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import { cylinderRoom, cylinderVessel } from '@ullage/thermo';
import { doubtOf, doubtRows } from './doubt-rows.ts';
import type { DoubtRow } from './doubt-rows.ts';

/** What the books say is in a cylinder: holdings above zero. */
export async function contentsOf(tx: Tx, tenantId: string, accountId: string): Promise<Portion[]> {
  const rows = await tx.balance.findMany({
    where: { tenantId, accountId, grams: { gt: 0 } },
    orderBy: { refrigerant: 'asc' },
  });
  return portionsOf(rows, tenantId);
}
interface BalanceRow {
  readonly refrigerant: string;
  readonly owner: string;
  readonly state: string;
  readonly grams: unknown;
}
/** What balances hold: those above zero. */
export const portionsOf = (rows: readonly BalanceRow[], tenantId: string): Portion[] =>
  rows
    .filter((row) => Number(row.grams) > 0)
    .map((row) => ({
      holding: {
        refrigerant: row.refrigerant,
        owner: row.owner === tenantId ? null : row.owner,
        state: row.state as GasState,
      },
      grams: Number(row.grams),
    }));

/** The gas a cylinder was registered with; null for one that came empty. */
export async function registeredGas(tx: Tx, tenantId: string, cylinderId: string): Promise<string | null> {
  const fact = await tx.fact.findFirst({
    where: { tenantId, kind: 'cylinder-registered', factRefs: { some: { cylinderId } } },
    select: { body: true },
  });
  return (fact?.body as { gas?: { refrigerant: string } } | undefined)?.gas?.refrigerant ?? null;
}

/** Doubts about an account that nothing has cleared. */
export async function openDoubts(tx: Tx, tenantId: string, accountId: string): Promise<DoubtRow[]> {
  const rows = await doubtRows({ tx, tenantId }, { accountId, via: [] });
  return rows.filter((row) => row.clearedByFact === null);
}
/** The same as the verdict reads them: one for each origin. */
export const taintsOfRows = (rows: readonly DoubtRow[]): Taint[] => taintsOf(rows.map(doubtOf));

export interface CylinderStamps {
  readonly kind: string;
  readonly specification: string;
  readonly waterCapacityKg: unknown;
  readonly servicePressureKpaGauge: unknown;
  readonly testedMonth: string | null;
}
/** Stamps and dates as the laboratory reads them. */
const stampsOf = (cylinder: CylinderStamps, today: string) => ({
  kind: cylinder.kind as 'disposable' | 'refillable' | 'recovery',
  specification: cylinder.specification,
  todayOn: today,
  ...(cylinder.testedMonth === null ? {} : { lastTest: { month: cylinder.testedMonth, kind: 'hydrostatic' as const } }),
});

/** What forbids filling it with any gas, and until when it may be filled. */
export const vesselOf = (cylinder: CylinderStamps, today: string) => cylinderVessel(stampsOf(cylinder, today));

/** Room, limits and reasons for one refrigerant, with what the cylinder holds now. Undefined for a gas that physics does not know. */
export function roomOf(
  cylinder: CylinderStamps,
  given: { refrigerant: string; contents: readonly Portion[]; tareGrams: number; today: string },
) {
  const { refrigerant, contents, tareGrams, today } = given;
  const netGrams = contents.reduce((sum, portion) => sum + portion.grams, 0);
  const contentsKg = Object.fromEntries(composition(contents).map((part) => [part.refrigerant, part.grams / 1000]));
  const room = cylinderRoom({
    refrigerant,
    waterCapacityKg: Number(cylinder.waterCapacityKg),
    tareKg: tareGrams / 1000,
    grossKg: (tareGrams + netGrams) / 1000,
    contentsKg,
    ...stampsOf(cylinder, today),
    ...(cylinder.servicePressureKpaGauge === null
      ? {}
      : { servicePressureKpaGauge: Number(cylinder.servicePressureKpaGauge) }),
  });
  return room.ok ? room : undefined;
}
