/** What a contractor has already, as far as the rows of a file could mean it. */
import { bookedGrams } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import type { Known } from '@ullage/intake';
import type { Tx } from '@ullage/database';
import { NOT_WITHDRAWN } from '../gas/corrections.ts';
import { dateToDay } from '../pipeline/case.ts';
import { HELD } from '../visits/placing.ts';

/** All of it at once: each row of thousands is compared with it, and seven reads are cheaper than one for each row. */
export async function knownTo(tx: Tx, tenantId: string): Promise<Known> {
  const live = { tenantId, withdrawnAt: null };
  const customers = await tx.customer.findMany({
    where: live,
    select: { id: true, name: true },
    orderBy: { id: 'asc' },
  });
  const sites = await tx.site.findMany({
    where: live,
    select: { id: true, customerId: true, name: true, address: true },
    orderBy: { id: 'asc' },
  });
  const units = await tx.unit.findMany({ where: live, select: { id: true, siteId: true, tag: true } });
  const circuits = await tx.circuit.findMany({
    where: live,
    select: { id: true, unitId: true, letter: true, refrigerant: true },
  });
  const facts = await tx.fact.findMany({
    where: { tenantId, kind: 'past-addition', factCorrectses: NOT_WITHDRAWN },
    select: { circuitId: true, happenedOn: true, body: true },
  });
  const additions = facts.flatMap(({ circuitId, happenedOn, body }) => {
    if (circuitId === null || happenedOn === null) return [];
    const { mass } = body as { mass: EnteredMass | null };
    return [{ circuitId, onDay: dateToDay(happenedOn), grams: mass === null ? null : bookedGrams(mass) }];
  });
  const cylinders = await tx.cylinder.findMany({
    where: { ...live, mergedIntoId: null },
    select: { id: true, serial: true, specification: true },
    orderBy: { id: 'asc' },
  });
  return { customers, sites, units, circuits, additions, cylinders, people: await peopleKnown(tx, tenantId) };
}

/** Also who has left: under their name another would be asked about. */
async function peopleKnown(tx: Tx, tenantId: string): Promise<Known['people']> {
  const people = await tx.person.findMany({
    where: { tenantId, withdrawnAt: null },
    select: { id: true, name: true, email: true, certificates: { ...HELD, select: { type: true, endsOn: true } } },
    orderBy: { id: 'asc' },
  });
  return people.map(({ certificates, ...person }) => ({
    ...person,
    certificates: certificates.map(({ type, endsOn }) => ({ type, endsOn: endsOn && dateToDay(endsOn) })),
  }));
}

export async function ownNames(tx: Tx, tenantId: string): Promise<string[]> {
  const tenant = await tx.tenant.findUniqueOrThrow({ where: { id: tenantId }, select: { name: true } });
  const people = await tx.person.findMany({ where: { tenantId, withdrawnAt: null }, select: { name: true } });
  return [tenant.name, ...people.map(({ name }) => name)];
}
