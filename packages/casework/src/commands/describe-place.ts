import type { CommandBody } from '@ullage/contracts';
import { circuitAccount } from '../gas/accounts.ts';
import { dayToDate, notFound, refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { createFullCharge } from './full-charge.ts';

/** Takes the circuit for itself and notes that law and books are to be worked out anew; with the day it is at the site. */
async function takeCircuit(
  desk: Case,
  given: { circuitId: string; happenedAt: string; fromOn?: string },
): Promise<{ unitId: string; today: string }> {
  const { tenantId } = desk;
  const circuit = await desk.tx.circuit.findUnique({
    where: { tenantId_id: { tenantId, id: given.circuitId } },
    select: { unitId: true, withdrawnAt: true, unit: { select: { site: { select: { timeZone: true } } } } },
  });
  if (!circuit || circuit.withdrawnAt) throw notFound();
  const { calendar } = desk.world;
  const { timeZone } = circuit.unit.site;
  const since = given.fromOn === undefined ? given.happenedAt : calendar.startOf(given.fromOn, timeZone);
  await lock(desk.tx, tenantId, { circuitIds: [given.circuitId], gas: { since } });
  desk.circuits.add(given.circuitId);
  desk.accounts.add(await circuitAccount(desk, given.circuitId));
  desk.changed('circuit', given.circuitId);
  const today = calendar.dayOf(given.happenedAt, timeZone);
  return { unitId: circuit.unitId, today };
}

/** A full charge that was measured, reckoned anew or found on the plate, from a day on. */
export async function setFullCharge(
  desk: Case,
  { body, happenedAt }: Received<CommandBody<'set-full-charge'>>,
): Promise<void> {
  const { circuitId, fromOn } = body;
  const { today } = await takeCircuit(desk, { circuitId, happenedAt, fromOn });
  if (fromOn > today) throw refuseField('fromOn', 'Holds from: the day lies ahead; give today or a past day.');
  await createFullCharge(desk, {
    circuitId,
    entered: body.fullCharge,
    fromOn: dayToDate(fromOn),
  });
}

/** What the law asks somebody to decide about a circuit. The one before stays in the audit trail. */
export async function describeCircuit(
  desk: Case,
  { body, happenedAt }: Received<CommandBody<'describe-circuit'>>,
): Promise<void> {
  const { circuitId, why, installedOn, use, equipment, subsector } = body;
  const { today } = await takeCircuit(desk, { circuitId, happenedAt });
  if (installedOn !== undefined && installedOn > today)
    throw refuseField('installedOn', 'Installed on: the day lies ahead; give today or a past day.');
  await desk.tx.circuit.update({
    where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } },
    data: {
      decidedBy: desk.actor.userId,
      decisionWhy: why,
      ...(use === undefined ? {} : { use }),
      ...(equipment === undefined ? {} : { equipment }),
      ...(subsector === undefined ? {} : { subsector }),
      ...(installedOn === undefined ? {} : { installedOn: dayToDate(installedOn) }),
    },
  });
}

/** What was learnt of a site. A height given later counts for later readings; earlier ones keep the barometer they were read against. */
export async function describeSite(desk: Case, { body }: Received<CommandBody<'describe-site'>>): Promise<void> {
  const { tenantId } = desk;
  const { siteId, contact, coordinates, elevationM, ...texts } = body;
  const key = { tenantId_id: { tenantId, id: siteId } };
  const known = await desk.tx.site.findUnique({
    where: key,
    select: { withdrawnAt: true, contacts: { orderBy: { id: 'asc' }, take: 1 } },
  });
  if (!known || known.withdrawnAt) throw notFound();
  await desk.tx.site.update({
    where: key,
    data: {
      ...texts,
      ...(elevationM === undefined ? {} : { elevationM, elevationAssumed: false }),
      ...(coordinates ?? {}),
    },
  });
  if (contact) await keepContact(desk, { siteId, contact, knownId: known.contacts[0]?.id });
  desk.changed('site', siteId);
}

async function keepContact(
  desk: Case,
  given: { siteId: string; contact: { name: string; phone?: string | undefined }; knownId: string | undefined },
): Promise<void> {
  const { tenantId } = desk;
  const { siteId, knownId } = given;
  const data = { name: given.contact.name, phone: given.contact.phone ?? null };
  if (knownId === undefined)
    await desk.tx.contact.create({ data: { tenantId, id: desk.world.newId(), siteId, ...data } });
  else await desk.tx.contact.update({ where: { tenantId_id: { tenantId, id: knownId } }, data });
}
