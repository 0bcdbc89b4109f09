import type { Mass } from '@ullage/contracts';
import { gramsMoved } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { refuseField, toDate } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';

/** No refrigerant is denser as a liquid than this above -20 °C, so no cylinder holds more per kilogram of water. */
const DENSEST_KG_PER_KG_WATER = 1.7;

export interface Weighed {
  readonly cylinderId: string;
  readonly factId: string;
  readonly before: Mass;
  readonly after: Mass;
  readonly scaleId?: string | undefined;
  readonly at: string;
  readonly tareGrams: number;
}

/** Which way gas went, and where in the body the weights stand (`to/weights/`). */
interface Asked {
  readonly direction: 'in' | 'out';
  readonly under?: string;
}
/** The refusal of weights that went the wrong way. */
export const wrongWay = ({ direction, under = '' }: Asked) =>
  refuseField(
    `${under}after`,
    `Gross after: ${direction === 'in' ? 'a filled cylinder gets heavier' : 'an emptied cylinder gets lighter'}; check both weights.`,
  );

/** Grams that went into (`in`) or out of a cylinder. @throws Refusal for weights that no cylinder could show */
export async function gramsBetween(desk: Case, weighed: Weighed, { direction, under = '' }: Asked): Promise<number> {
  const weighing = (gross: Mass) => ({ grossGrams: bookedGrams(gross), tareGrams: weighed.tareGrams });
  const moved = gramsMoved({ direction, before: weighing(weighed.before), after: weighing(weighed.after) });
  if (!moved.moved && moved.because === 'weight-went-the-wrong-way') throw wrongWay({ direction, under });
  await assertCanHold(desk, weighed, under);
  return moved.moved ? moved.grams : 0;
}

/** @throws Refusal for a reading of either that this cylinder could not show */
export async function assertCanHold(
  desk: Case,
  weighed: Pick<Weighed, 'cylinderId' | 'tareGrams'> & { before?: Mass | undefined; after?: Mass | undefined },
  under = '',
): Promise<void> {
  for (const role of ['before', 'after'] as const) {
    const gross = weighed[role];
    if (gross) await assertHolds(desk, weighed, { gross, role, field: `${under}${role}` });
  }
}

/** @throws Refusal for a gross weight above what the cylinder can hold */
export async function assertHolds(
  desk: Case,
  { cylinderId, tareGrams }: Pick<Weighed, 'cylinderId' | 'tareGrams'>,
  { gross, role, field }: { gross: Mass; role: 'before' | 'after' | 'weight'; field: string },
): Promise<void> {
  const cylinder = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId: desk.tenantId, id: cylinderId } },
  });
  const mostGrams = Number(cylinder.waterCapacityKg) * 1000 * DENSEST_KG_PER_KG_WATER + tareGrams;
  if (bookedGrams(gross) > mostGrams)
    throw refuseField(field, `Gross ${role}: more than this cylinder can hold; check number and unit.`);
}

/** Keeps readings as entered, with the tare used. */
export async function keepWeighings(
  desk: Case,
  weighed: Omit<Weighed, 'before' | 'after'> & { before?: Mass | undefined; after?: Mass | undefined },
): Promise<void> {
  for (const role of ['before', 'after'] as const) {
    const reading = weighed[role];
    if (!reading) continue;
    await desk.tx.weighing.create({
      data: {
        tenantId: desk.tenantId,
        id: desk.world.newId(),
        cylinderId: weighed.cylinderId,
        factId: weighed.factId,
        role,
        value: reading.value,
        unit: reading.unit,
        grams: bookedGrams(reading),
        tareGrams: weighed.tareGrams,
        scaleId: weighed.scaleId ?? null,
        at: toDate(weighed.at),
      },
    });
  }
}
