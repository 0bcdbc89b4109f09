import type { CommandBody } from '@ullage/contracts';
import { dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { createFullCharge } from './full-charge.ts';
import { bookHistory, lockHistory } from './past-additions.ts';

type Call = CommandBody<'take-call'>;
const CALL_MINUTES = 180;

/** A customer rings. What is known is named by id, what is new is made; nothing of a call is half taken. */
export async function takeCall(desk: Case, received: Received<Call>): Promise<void> {
  const call = received.body;
  await openCustomer(desk, call);
  const site = await openSite(desk, call);
  await openUnit(desk, call);
  await openCircuit(desk, call, desk.world.calendar.dayOf(received.happenedAt, site.timeZone));
  await lockHistory(desk, { circuitId: call.circuit.id, history: call.history, zone: site.timeZone });
  await bookHistory(desk, {
    circuitId: call.circuit.id,
    owner: call.customer.id,
    history: call.history,
    zone: site.timeZone,
    today: desk.world.calendar.dayOf(received.happenedAt, site.timeZone),
  });
  await openVisit(desk, call, received);
}

export async function openCustomer(desk: Case, { customer }: Pick<Call, 'customer'>): Promise<void> {
  const { tenantId } = desk;
  if (customer.new) {
    const createdAt = toDate(desk.recordedAt);
    await desk.tx.customer.create({ data: { tenantId, id: customer.id, name: customer.new.name, createdAt } });
    const facility = await desk.tx.facility.create({
      data: { tenantId, id: desk.world.newId(), customerId: customer.id, name: customer.new.name },
    });
    await desk.tx.facilityMethod.create({
      data: {
        tenantId,
        facilityId: facility.id,
        sinceOn: dayToDate('1900-01-01'),
        method: 'annualizing',
        decidedBy: desk.actor.userId,
        why: 'The first method of a facility unless its owner says otherwise.',
      },
    });
    desk.changed('customer', customer.id, 'made');
    return;
  }
  const known = await desk.tx.customer.findUnique({ where: { tenantId_id: { tenantId, id: customer.id } } });
  if (!known || known.withdrawnAt) throw notFound();
}

type NewSite = NonNullable<Call['site']['new']>;
const describe = ({ coordinates, elevationM, ...made }: Omit<NewSite, 'contact'>) => ({
  ...made,
  elevationM: elevationM ?? 0,
  elevationAssumed: elevationM === undefined,
  name: made.name ?? made.address,
  latitude: coordinates?.latitude ?? null,
  longitude: coordinates?.longitude ?? null,
  country: made.country ?? 'US',
  region: made.region ?? null,
  accessNotes: made.accessNotes ?? null,
});

export async function openSite(
  desk: Case,
  { site, customer }: Pick<Call, 'site' | 'customer'>,
): Promise<{ timeZone: string }> {
  const { tenantId } = desk;
  if (!site.new) {
    const known = await desk.tx.site.findUnique({ where: { tenantId_id: { tenantId, id: site.id } } });
    if (!known || known.withdrawnAt) throw notFound();
    if (known.customerId !== customer.id)
      throw refuseField('site', 'Site: belongs to another customer; choose one of theirs.');
    return known;
  }
  const { contact, ...made } = site.new;
  const facility = await desk.tx.facility.findFirstOrThrow({ where: { tenantId, customerId: customer.id } });
  const row = await desk.tx.site.create({
    data: {
      tenantId,
      id: site.id,
      customerId: customer.id,
      facilityId: facility.id,
      ...describe(made),
      createdAt: toDate(desk.recordedAt),
    },
  });
  if (contact) {
    const data = {
      tenantId,
      id: desk.world.newId(),
      siteId: site.id,
      name: contact.name,
      phone: contact.phone ?? null,
    };
    await desk.tx.contact.create({ data });
  }
  desk.changed('site', site.id, 'made');
  return row;
}

export async function openUnit(desk: Case, { unit, site }: Pick<Call, 'unit' | 'site'>): Promise<void> {
  const { tenantId } = desk;
  if (!unit.new) {
    const known = await desk.tx.unit.findUnique({ where: { tenantId_id: { tenantId, id: unit.id } } });
    if (!known || known.withdrawnAt) throw notFound();
    if (known.siteId !== site.id) throw refuseField('unit', 'Unit: stands at another site; choose one of this site.');
    return;
  }
  const { tag, description } = unit.new;
  const taken = await desk.tx.unit.findUnique({ where: { tenantId_siteId_tag: { tenantId, siteId: site.id, tag } } });
  if (taken) throw refuseField('unit/new/tag', `Unit: ${tag} is already at this site; choose it from the list.`);
  const createdAt = toDate(desk.recordedAt);
  await desk.tx.unit.create({
    data: { tenantId, id: unit.id, siteId: site.id, tag, description: description ?? null, createdAt },
  });
  desk.changed('unit', unit.id, 'made');
}

type CallCircuit = Pick<Call, 'circuit' | 'unit' | 'history'>;
export async function openCircuit(desk: Case, call: CallCircuit, today: string): Promise<void> {
  const { tenantId } = desk;
  const { circuit, unit } = call;
  if (!circuit.new) {
    const known = await desk.tx.circuit.findUnique({ where: { tenantId_id: { tenantId, id: circuit.id } } });
    if (!known || known.withdrawnAt) throw notFound();
    if (known.unitId !== unit.id)
      throw refuseField('circuit', 'Circuit: belongs to another unit; choose one of this unit.');
    return;
  }
  const letter = circuit.new.letter ?? 'A';
  const taken = await desk.tx.circuit.findUnique({
    where: { tenantId_unitId_letter: { tenantId, unitId: unit.id, letter } },
  });
  if (taken) throw refuseField('circuit/new/letter', `Circuit: ${letter} is already there; give another letter.`);
  await createCircuit(desk, { call, made: circuit.new, letter });
  const fromOn = dayToDate(circuit.new.installedOn ?? firstDay(call, today));
  await createFullCharge(desk, { circuitId: circuit.id, entered: circuit.new.fullCharge, fromOn });
  desk.changed('circuit', circuit.id, 'made');
}

type NewCircuit = NonNullable<Call['circuit']['new']>;
async function createCircuit(
  desk: Case,
  given: { call: CallCircuit; made: NewCircuit; letter: string },
): Promise<void> {
  const { tenantId } = desk;
  const { call, made, letter } = given;
  await desk.tx.circuit.create({
    data: {
      tenantId,
      id: call.circuit.id,
      unitId: call.unit.id,
      letter,
      refrigerant: made.refrigerant,
      use: made.use,
      equipment: made.equipment ?? 'other',
      subsector: made.subsector ?? null,
      decidedBy: desk.actor.userId,
      decisionWhy: made.decisionWhy ?? null,
      installedOn: made.installedOn === undefined ? null : dayToDate(made.installedOn),
    },
  });
  const id = desk.world.newId();
  await desk.tx.gasAccount.create({ data: { tenantId, id, kind: 'circuit', circuitId: call.circuit.id } });
}

/** A figure given today is taken to hold for the whole history that was told with it. */
const firstDay = (call: Pick<Call, 'history'>, today: string): string =>
  [today, ...call.history.map((past) => past.onDay)].sort()[0] ?? today;

async function openVisit(desk: Case, call: Call, received: Received<Call>): Promise<void> {
  const { tenantId } = desk;
  await desk.tx.visit.create({
    data: {
      tenantId,
      id: call.visit.id,
      siteId: call.site.id,
      purpose: 'call',
      state: 'proposed',
      version: 1,
      symptom: call.visit.symptom ?? null,
      plannedMinutes: CALL_MINUTES,
      createdAt: toDate(received.happenedAt),
    },
  });
  await desk.tx.visitCircuit.create({ data: { tenantId, visitId: call.visit.id, circuitId: call.circuit.id } });
  desk.changed('visit', call.visit.id, 'made');
}
