import type { CommandBody } from '@ullage/contracts';
import { toDate } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';

/** A new figure stands beside the earlier ones: which held on a day, the law's sums read off the history. */
export async function createFullCharge(
  desk: Case,
  given: { circuitId: string; entered: CommandBody<'set-full-charge'>['fullCharge']; fromOn: Date },
): Promise<void> {
  const { entered, ...rest } = given;
  await desk.tx.fullCharge.create({
    data: {
      ...rest,
      tenantId: desk.tenantId,
      id: desk.world.newId(),
      value: entered.mass.value,
      unit: entered.mass.unit,
      method: entered.method,
      lowValue: entered.low?.value ?? null,
      highValue: entered.high?.value ?? null,
      decidedBy: desk.actor.userId,
      recordedAt: toDate(desk.recordedAt),
    },
  });
}
