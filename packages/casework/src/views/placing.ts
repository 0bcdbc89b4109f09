/** For whoever is choosing when a visit is made and by whom. */
import { Refusal } from '@ullage/contracts';
import type { OfferView, PlacingGround, SuggestionsQuery, SuggestionsView } from '@ullage/contracts';
import { suggest, WORKING_DAY } from '@ullage/roster';
import type { Candidate, Offer } from '@ullage/roster';
import { notFound } from '../pipeline/case.ts';
import { HELD, asCertificate, asProposed, dutyWindows, onRoster, stopsOf } from '../visits/placing.ts';
import type { Viewer } from './viewer.ts';
import { certificateText } from './visit.ts';

/** The visit and everybody who can be sent, in the same few statements however many they are. */
async function groundOf({ tx, tenantId, tenant, now, world }: Viewer, visitId: string) {
  const visit = await tx.visit.findUnique({
    where: { tenantId_id: { tenantId, id: visitId } },
    include: { site: true, visitCircuits: { include: { circuit: true } } },
  });
  if (!visit) throw notFound();
  if (!['proposed', 'placed'].includes(visit.state))
    throw new Refusal('not-possible', 'This visit is under way or closed; it cannot be moved.');
  const people = await tx.person.findMany({
    where: onRoster(tenantId),
    include: { certificates: HELD },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  });
  const ids = people.map(({ id }) => id);
  const byPerson = Map.groupBy(await stopsOf(tx, tenantId, ids), ({ personId }) => personId);
  const today = world.calendar.dayOf(now, tenant.timeZone);
  const candidates = people.map((person) => ({
    personId: person.id,
    name: person.name,
    certificatesText: certificateText(person.certificates, today),
    certificates: person.certificates.map(asCertificate),
    stops: byPerson.get(person.id) ?? [],
  }));
  return { visit, proposed: asProposed(visit, await dutyWindows(tx, tenantId, visitId)), candidates };
}

/** Who of the firm has finished a visit to one of these circuits. */
async function whoKnows({ tx, tenantId }: Viewer, circuitIds: readonly string[]): Promise<ReadonlySet<string>> {
  const rows = await tx.visitPerson.findMany({
    where: { tenantId, visit: { state: 'done', visitCircuits: { some: { circuitId: { in: [...circuitIds] } } } } },
    select: { personId: true },
    distinct: ['personId'],
  });
  return new Set(rows.map(({ personId }) => personId));
}

export async function suggestionsView(
  viewer: Viewer,
  { visitId, minutes }: SuggestionsQuery & { visitId: string },
): Promise<SuggestionsView> {
  const { visit, proposed, candidates } = await groundOf(viewer, visitId);
  const zone = visit.site.timeZone;
  const known = await whoKnows(
    viewer,
    visit.visitCircuits.map(({ circuitId }) => circuitId),
  );
  const length = minutes ?? visit.plannedMinutes;
  const found = suggest({
    visit: proposed,
    minutes: length,
    people: candidates.map((one): Candidate => ({ ...one, knowsIt: known.has(one.personId) })),
    now: viewer.now,
    zone,
    calendar: viewer.world.calendar,
  });
  const byId = new Map(candidates.map((one) => [one.personId, one]));
  const nameOf = (personId: string): string => byId.get(personId)?.name ?? '';
  const offerView = ({ alsoPersonIds, which, ...offer }: Offer): OfferView => ({
    ...offer,
    name: nameOf(offer.personId),
    certificates: byId.get(offer.personId)?.certificatesText ?? '',
    alsoNames: alsoPersonIds.map(nameOf),
    which: which ?? null,
    reasons: [...offer.reasons],
    warnings: [...offer.warnings],
  });
  return {
    visitId,
    version: visit.version,
    minutes: length,
    timeZone: zone,
    offers: found.offers.map(offerView),
    barred: found.barred.map(({ personId, refusal }) => ({
      personId,
      name: nameOf(personId),
      text: refusal.text,
      clause: refusal.clause ?? null,
    })),
    fromDay: found.fromDay,
    toDay: found.toDay,
  };
}

export async function placingGround(viewer: Viewer, visitId: string): Promise<PlacingGround> {
  const { visit, proposed, candidates } = await groundOf(viewer, visitId);
  return {
    visit: {
      ...proposed,
      circuits: [...proposed.circuits],
      duties: proposed.duties.map(({ opensAt, dueAt, clause }) => ({
        opensAt: opensAt ?? null,
        dueAt,
        clause: clause ?? null,
      })),
      place: proposed.place ?? null,
    },
    minutes: visit.plannedMinutes,
    timeZone: visit.site.timeZone,
    workingDay: WORKING_DAY,
    people: candidates.map(({ personId, certificates, stops }) => ({
      personId,
      certificates: certificates.map(({ scheme, type, registeredOn, endsOn }) => ({
        scheme,
        type,
        registeredOn: registeredOn ?? null,
        endsOn: endsOn ?? null,
      })),
      stops: stops.map(({ visitId: id, label, startsAt, minutes, place }) => ({
        visitId: id,
        label,
        startsAt,
        minutes,
        place: place ?? null,
      })),
    })),
  };
}
