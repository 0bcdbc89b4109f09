import type { Act, Portion } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import type { Calendar, Instant } from '@ullage/units';
import { tareOf } from '../commands/register.ts';
import { roomOf } from './contents.ts';

/** What limits the filling of a cylinder, by stamps, dates and room. */
export type Limits = Pick<
  Extract<Act, { act: 'recovery' }>,
  'cylinderKind' | 'dedicatedTo' | 'requalifyBy' | 'today' | 'pressureSuits' | 'roomGrams'
>;

interface Asker {
  readonly tx: Tx;
  readonly tenantId: string;
  readonly tenant: { readonly timeZone: string };
  readonly world: { readonly calendar: Calendar };
}

/** Limits for a gas on the day of an instant, with what was inside by then. */
export async function fillingLimits(
  { tx, tenantId, tenant, world }: Asker,
  given: { cylinderId: string; refrigerant: string; at: Instant; contents: readonly Portion[] },
): Promise<Limits> {
  const { cylinderId, refrigerant, at, contents } = given;
  const cylinder = await tx.cylinder.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: cylinderId } } });
  const today = world.calendar.dayOf(at, tenant.timeZone);
  const tareGrams = await tareOf({ tx, tenantId }, cylinderId, at);
  const room = roomOf(cylinder, { refrigerant, contents, tareGrams, today });
  const kg = room?.roomKg ?? null;
  return {
    cylinderKind: cylinder.kind as Limits['cylinderKind'],
    dedicatedTo: cylinder.dedicatedTo,
    requalifyBy: room?.requalifyByOn ?? null,
    today,
    pressureSuits: pressureSuits(room),
    roomGrams: kg === null ? null : Math.floor(kg * 1000),
  };
}

/** Null where the laboratory does not know the gas, or the cylinder's service pressure was not given. */
function pressureSuits(room: ReturnType<typeof roomOf>): boolean | null {
  if (!room || room.notChecked.includes('service pressure')) return null;
  const codes = room.whyNot.map(({ code }) => code);
  if (codes.includes('service-pressure-unknown')) return null;
  return !codes.includes('service-pressure-too-low');
}
