import type { CommandBody } from '@ullage/contracts';
import { contentsOf, openDoubts, taintsOfRows } from '../gas/contents.ts';
import { fitnessOf } from '../gas/fitness.ts';
import { filledOn } from '../views/filled-on.ts';
import type { Case } from '../pipeline/case.ts';
import { tareOf } from './register.ts';

interface Sent {
  readonly cylinderId: string;
  readonly purpose: CommandBody<'record-shipment'>['purpose'];
  readonly at: string;
}
/** It has left; where it was not fit to, somebody is asked to look, with the first reason. */
export async function askIfUnfit(desk: Case, { cylinderId, purpose, at }: Sent): Promise<void> {
  const { tx, tenantId, world, tenant } = desk;
  const cylinder = await tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: cylinderId } },
    include: { gasAccount: { select: { id: true } } },
  });
  const account = cylinder.gasAccount?.id ?? '';
  const fitness = fitnessOf(cylinder, {
    contents: await contentsOf(tx, tenantId, account),
    taints: taintsOfRows(await openDoubts(tx, tenantId, account)),
    tareGrams: await tareOf(desk, cylinderId, at),
    filledOn: (await filledOn(desk, [account])).get(account) ?? null,
    today: world.calendar.dayOf(at, tenant.timeZone),
  });
  const wanted = fitness.find(({ use }) => use === (purpose === 'reclaim' ? 'return' : 'destroy'));
  const reason = wanted?.fit === false ? wanted.reasons[0]?.text : undefined;
  if (reason !== undefined)
    desk.raise({ code: 'not-fit-to-send', text: reason, subject: { kind: 'cylinder', id: cylinderId } });
}
