import { Refusal } from '@ullage/contracts';
import type { CommandBody } from '@ullage/contracts';
import { mayPlace } from '@ullage/roster';
import type { PlacingAnswer, Proposal } from '@ullage/roster';
import type { Instant } from '@ullage/units';
import { notFound, refuseField, toDate, toInstant } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { asCertificate, circuitWork, dutyWindows, placeOf, stopsOf } from '../visits/placing.ts';

type Body = CommandBody<'place-visit'>;

/** Puts a visit on somebody's day. Of two who place one visit at once, one wins and the other is told who and when. */
export async function placeVisit(desk: Case, { body }: Received<Body>): Promise<void> {
  const { tx, tenantId } = desk;
  await lock(tx, tenantId, { visitId: body.visitId });
  const visit = await tx.visit.findUnique({
    where: { tenantId_id: { tenantId, id: body.visitId } },
    include: { site: true, visitCircuits: { include: { circuit: true } }, visitPersons: { include: { person: true } } },
  });
  if (!visit) throw notFound();
  if (visit.version !== body.version) throw stale(desk, visit);
  if (!['proposed', 'placed'].includes(visit.state))
    throw refuseField('visitId', 'Visit: already under way or closed; it cannot be moved.');
  const startsAt = momentAt(desk, body, visit.site.timeZone);
  const personIds = [body.personId, ...(body.withPersonIds ?? [])];
  const people = await tx.person.findMany({
    where: { tenantId, id: { in: personIds }, active: true },
    include: { certificates: true },
  });
  if (people.length !== new Set(personIds).size) throw notFound();
  const papers = people.map((person) => ({
    personId: person.id,
    certificates: person.certificates.map(asCertificate),
  }));
  const stops = await stopsOf(tx, tenantId, personIds);
  const duties = await dutyWindows(tx, tenantId, visit.id);
  for (const person of papers) {
    const proposal: Proposal = {
      visit: {
        visitId: visit.id,
        purpose: visit.purpose as Proposal['visit']['purpose'],
        opensCircuit: true,
        circuits: visit.visitCircuits.map((row) => circuitWork(row.circuit.refrigerant)),
        duties,
        place: placeOf(visit.site),
      },
      person,
      others: papers.filter((other) => other.personId !== person.personId),
      startsAt,
      minutes: body.minutes,
      stops,
      now: desk.recordedAt,
      zone: visit.site.timeZone,
      calendar: desk.world.calendar,
    };
    refuseUnlessAllowed(desk, mayPlace(proposal), body);
  }
  await write(desk, body, { startsAt, personIds });
}

/** The instant of the wall-clock time at the site. @throws Refusal for a time that does not exist, or exists twice */
function momentAt(desk: Case, body: Body, zone: string): Instant {
  const local = desk.world.calendar.at(body.day, body.time, zone);
  if (local.ok) return local.instant;
  if (local.fault === 'does-not-exist') {
    throw refuseField('time', `Time: ${body.time} does not exist that day, clocks go forward; choose another.`);
  }
  if (body.which === undefined) {
    throw refuseField('which', `Time: ${body.time} comes twice that day, clocks go back; say earlier or later.`);
  }
  return local[body.which];
}

function refuseUnlessAllowed(desk: Case, answer: PlacingAnswer, body: Body): void {
  for (const warning of answer.warnings) desk.ask(warning.code, warning.text);
  if (answer.ok) return;
  const bent = new Set<string>(body.override?.rules ?? []);
  const standing = answer.refusals.filter((refusal) => !(refusal.overridable && bent.has(refusal.code)));
  // The law speaks first: what cannot be bent is said before what can.
  const [first] = [...standing].sort((a, b) => Number(a.overridable) - Number(b.overridable));
  if (!first) return;
  throw new Refusal('rule-forbids', first.text, {
    errors: standing.map((refusal) => ({ pointer: '#/body/time', detail: refusal.text })),
    rule: {
      whose: first.whose,
      code: first.code,
      overridable: first.overridable,
      ...(first.clause === undefined ? {} : { clause: first.clause }),
      ...(first.insteadText === undefined ? {} : { instead: first.insteadText }),
    },
  });
}

type Standing = { plannedStart: Date | null; site: { timeZone: string }; visitPersons: { person: { name: string } }[] };
/** Names the winner and the time, so that the other knows what to do without asking. */
function stale(desk: Case, visit: Standing): Refusal {
  const names = visit.visitPersons.map((row) => row.person.name).join(' and ');
  if (names === '' || visit.plannedStart === null)
    return new Refusal('stale', 'Somebody changed this visit; look at it again.');
  const at = toInstant(visit.plannedStart);
  const { calendar } = desk.world;
  const zone = visit.site.timeZone;
  return new Refusal('stale', `Placed already: ${names}, ${calendar.dayOf(at, zone)} ${calendar.timeOf(at, zone)}.`);
}

async function write(
  desk: Case,
  body: Body,
  { startsAt, personIds }: { startsAt: Instant; personIds: string[] },
): Promise<void> {
  const { tx, tenantId } = desk;
  const placed = await tx.visit.updateMany({
    where: { tenantId, id: body.visitId, version: body.version },
    data: { state: 'placed', plannedStart: toDate(startsAt), plannedMinutes: body.minutes, version: { increment: 1 } },
  });
  if (placed.count !== 1) throw new Refusal('stale', 'Somebody changed this visit; look at it again.');
  await tx.visitPerson.deleteMany({ where: { tenantId, visitId: body.visitId } });
  await tx.visitPerson.createMany({
    data: personIds.map((personId) => ({
      tenantId,
      visitId: body.visitId,
      personId,
      overrideRule: body.override?.rules.join(' ') ?? null,
      overrideReason: body.override?.reason ?? null,
      placedBy: desk.actor.userId,
      placedAt: toDate(desk.recordedAt),
    })),
  });
  desk.changed('visit', body.visitId);
}

/** Takes a visit off the plan; it is proposed again. */
export async function unplaceVisit(desk: Case, { body }: Received<CommandBody<'unplace-visit'>>): Promise<void> {
  const { tx, tenantId } = desk;
  await lock(tx, tenantId, { visitId: body.visitId });
  const taken = await tx.visit.updateMany({
    where: { tenantId, id: body.visitId, version: body.version, state: 'placed' },
    data: { state: 'proposed', plannedStart: null, version: { increment: 1 } },
  });
  if (taken.count !== 1) {
    const there = await tx.visit.count({ where: { tenantId, id: body.visitId } });
    throw there === 0 ? notFound() : new Refusal('stale', 'Somebody changed this visit; look at it again.');
  }
  await tx.visitPerson.deleteMany({ where: { tenantId, visitId: body.visitId } });
  desk.changed('visit', body.visitId);
}
