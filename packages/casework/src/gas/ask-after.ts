import { asks } from '@ullage/gasbook';
import type { Act } from '@ullage/gasbook';
import { cylinderAccount } from './accounts.ts';
import { asTaint, contentsOf, openTaints, roomOf } from './contents.ts';
import { tareOf } from '../commands/register.ts';
import type { Case } from '../pipeline/case.ts';

interface Done {
  readonly act: 'recovery' | 'charge';
  readonly cylinderId: string;
  readonly refrigerant: string;
  readonly circuitOwner: string;
  readonly grams: number;
  readonly at: string;
}

/** The act is done and will be booked; this asks about whatever would have stopped it beforehand. */
export async function askAfterAct(desk: Case, done: Done): Promise<void> {
  const { tx, tenantId } = desk;
  const account = await cylinderAccount(desk, done.cylinderId);
  const contents = await contentsOf(tx, tenantId, account);
  const shared = { refrigerant: done.refrigerant, contents };
  const act: Act =
    done.act === 'charge'
      ? {
          act: 'charge',
          ...shared,
          circuitOwner: done.circuitOwner,
          taints: (await openTaints(tx, tenantId, account)).map(asTaint),
        }
      : { act: 'recovery', ...shared, ...(await recoveryLimits(desk, done, contents)), grams: done.grams };
  const subject = { kind: 'cylinder', id: done.cylinderId } as const;
  for (const { code, text } of asks({ act, derived: [] })) desk.raise({ code, text, subject });
  const cylinder = await tx.cylinder.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: done.cylinderId } } });
  if (cylinder.dedicatedTo !== null && cylinder.dedicatedTo !== done.refrigerant) {
    const text = `The cylinder is for ${cylinder.dedicatedTo}, the circuit runs on ${done.refrigerant}. Mark it and check.`;
    desk.raise({ code: 'other-gas', text, subject });
  }
}

async function recoveryLimits(desk: Case, done: Done, contents: Parameters<typeof roomOf>[1]['contents']) {
  const cylinder = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId: desk.tenantId, id: done.cylinderId } },
  });
  const today = desk.world.calendar.dayOf(done.at, desk.tenant.timeZone);
  const room = roomOf(cylinder, {
    refrigerant: done.refrigerant,
    contents,
    tareGrams: await tareOf(desk, done.cylinderId, done.at),
    today,
  });
  const kg = room?.roomKg ?? null;
  return {
    cylinderKind: cylinder.kind as 'disposable' | 'refillable' | 'recovery',
    requalifyBy: room?.requalifyByOn ?? null,
    today,
    roomGrams: kg === null ? null : Math.floor(kg * 1000),
  };
}
