import type { Prisma } from '@ullage/database';
import { dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import type { WantedGas } from '../pipeline/lock.ts';

/** Something a fact refers to, in a role; it is kept by foreign key, so that what it touched can be recalled. */
export type Reference = { readonly role: string } & (
  | { readonly cylinderId: string }
  | { readonly leakPointId: string }
  | { readonly instrumentId: string }
  | { readonly personId: string }
  | { readonly blobHash: string }
);
export interface NewFact {
  readonly id: string;
  readonly kind: string;
  readonly visitId?: string | undefined;
  readonly circuitId?: string | undefined;
  readonly at: { readonly instant: string } | { readonly day: string };
  readonly body: object;
  readonly refs?: readonly Reference[];
  readonly corrects?: string;
}

/** Writes a fact with its references. It is never changed after. */
export async function addFact(desk: Case, fact: NewFact): Promise<void> {
  const { tenantId } = desk;
  await desk.tx.fact.create({
    data: {
      tenantId,
      id: fact.id,
      kind: fact.kind,
      visitId: fact.visitId ?? null,
      circuitId: fact.circuitId ?? null,
      happenedAt: 'instant' in fact.at ? toDate(fact.at.instant) : null,
      happenedOn: 'day' in fact.at ? dayToDate(fact.at.day) : null,
      seq: 0,
      recordedAt: toDate(desk.recordedAt),
      byPersonId: desk.person.id,
      body: fact.body as Prisma.InputJsonValue,
      correctsId: fact.corrects ?? null,
      commandId: desk.commandId,
    },
  });
  const refs = fact.refs ?? [];
  await desk.tx.factRef.createMany({
    data: refs.map((ref, ordinal) => ({ tenantId, factId: fact.id, ordinal, ...ref })),
  });
  desk.changed('fact', fact.id, 'made');
  if (fact.visitId !== undefined) desk.changed('visit', fact.visitId);
  if (fact.circuitId !== undefined) {
    desk.circuits.add(fact.circuitId);
    desk.changed('circuit', fact.circuitId);
  }
}

/** A visit with its site, locked, and the gas accounts where gas moves. @throws Refusal not-found */
export async function lockedVisit(desk: Case, given: { visitId: string; circuitId?: string }, gas?: WantedGas) {
  await lock(desk.tx, desk.tenantId, {
    visitId: given.visitId,
    circuitIds: given.circuitId === undefined ? [] : [given.circuitId],
    gas,
  });
  const visit = await desk.tx.visit.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: given.visitId } },
    include: { site: true, visitCircuits: true },
  });
  if (!visit) throw notFound();
  if (given.circuitId !== undefined && !visit.visitCircuits.some((row) => row.circuitId === given.circuitId)) {
    throw await whyNotOnVisit(desk, given.circuitId);
  }
  return visit;
}

/** A circuit of ours that is not on the visit is a slip; any other id is not found. */
async function whyNotOnVisit(desk: Case, circuitId: string) {
  const ours = await desk.tx.circuit.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } } });
  return ours && !ours.withdrawnAt
    ? refuseField('circuitId', 'Circuit: not part of this visit; choose one that is.')
    : notFound();
}

/** @throws Refusal not-found unless every leak point is the circuit's own */
export async function assertLeakPoints(desk: Case, circuitId: string, ids: readonly string[]): Promise<void> {
  const rows = await desk.tx.leakPoint.findMany({
    where: { tenantId: desk.tenantId, circuitId, id: { in: [...ids] } },
    select: { id: true },
  });
  if (rows.length !== new Set(ids).size) throw notFound();
}

/** @throws Refusal not-found unless it is a look of ours, and with the field when it was at another circuit */
export async function assertLook(desk: Case, circuitId: string, lookId: string | undefined): Promise<void> {
  if (lookId === undefined) return;
  const row = await desk.tx.fact.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: lookId }, kind: 'look' },
    select: { circuitId: true },
  });
  if (!row) throw notFound();
  // The look may be of an earlier visit: a hit is often confirmed the next time.
  if (row.circuitId !== circuitId) throw refuseField('lookId', 'Look: at another circuit; choose one at this circuit.');
}

/** @throws Refusal not-found unless the instrument is known */
export async function assertInstrument(desk: Case, instrumentId: string | undefined): Promise<void> {
  if (instrumentId === undefined) return;
  const row = await desk.tx.instrument.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: instrumentId } },
    select: { id: true },
  });
  if (!row) throw notFound();
}

export const leakRefs = (ids: readonly string[]): Reference[] =>
  ids.map((leakPointId) => ({ role: 'leak', leakPointId }));
export const instrumentRef = (role: string, id: string | undefined): Reference[] =>
  id === undefined ? [] : [{ role, instrumentId: id }];

/** Names photos that may still be on a phone: a photo that does not come never holds up what was reported. */
export async function photoRefs(desk: Case, hashes: readonly string[] = []): Promise<Reference[]> {
  const { tenantId } = desk;
  // Sorted, so that two commands that name the same photos take their rows in one order.
  const data = [...hashes]
    .sort()
    .map((hash) => ({ tenantId, hash, state: 'awaited', namedAt: toDate(desk.recordedAt) }));
  if (data.length > 0) await desk.tx.blob.createMany({ data, skipDuplicates: true });
  return hashes.map((blobHash) => ({ role: 'photo', blobHash }));
}

/** Writes down what a field command reported, as a fact of the command's own id, with what else is kept of that moment. */
export function recordFact<B extends { visitId?: string | undefined; circuitId?: string | undefined }>(
  desk: Case,
  received: Received<B>,
  { keep, ...rest }: { kind: string; refs?: readonly Reference[]; keep?: object },
): Promise<void> {
  const { visitId, circuitId, ...said } = received.body;
  const body = { ...said, ...keep };
  return addFact(desk, { id: received.id, at: { instant: received.happenedAt }, body, visitId, circuitId, ...rest });
}
