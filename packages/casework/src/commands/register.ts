import type { CommandBody } from '@ullage/contracts';
import { bookedGrams, exactGrams, KPA_PER_PSI, toNumber } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact } from './facts.ts';

const day = (text: string | undefined): Date | null => (text === undefined ? null : dayToDate(text));

export async function registerInstrument(
  desk: Case,
  { body }: Received<CommandBody<'register-instrument'>>,
): Promise<void> {
  const { tenantId } = desk;
  const taken = await desk.tx.instrument.findUnique({ where: { tenantId_tag: { tenantId, tag: body.tag } } });
  if (taken) throw refuseField('tag', `Tag: ${body.tag} is already registered; choose it from the list.`);
  if (body.carrierId !== undefined) {
    const carrier = await desk.tx.person.findUnique({ where: { tenantId_id: { tenantId, id: body.carrierId } } });
    if (!carrier) throw notFound();
  }
  await desk.tx.instrument.create({
    data: {
      tenantId,
      id: body.instrumentId,
      kind: body.kind,
      tag: body.tag,
      senseGramsPerYear: body.senseGramsPerYear ?? null,
      repeatability: body.repeatability?.value ?? null,
      repeatabilityUnit: body.repeatability?.unit ?? null,
      carrierId: body.carrierId ?? null,
      madeOn: day(body.madeOn),
    },
  });
  desk.changed('instrument', body.instrumentId, 'made');
}

/** A cylinder by its stamps. What is in it is weighed in: its first weighing opens its account. */
export async function registerCylinder(
  desk: Case,
  received: Received<CommandBody<'register-cylinder'>>,
): Promise<void> {
  const { tenantId } = desk;
  const { body } = received;
  const tareGrams = bookedGrams(body.tare);
  if (body.gas && bookedGrams(body.gas.gross) < tareGrams) {
    throw refuseField('gas/gross', 'Gross weight: below the tare; check both figures.');
  }
  if (body.gas && body.dedicatedTo !== undefined && body.dedicatedTo !== body.gas.refrigerant) {
    throw refuseField('gas/refrigerant', `Refrigerant: the cylinder is for ${body.dedicatedTo}; check the label.`);
  }
  await createCylinder(desk, received);
  const account = await desk.tx.gasAccount.create({
    data: { tenantId, id: desk.world.newId(), kind: 'cylinder', cylinderId: body.cylinderId },
  });
  await askAboutTwins(desk, body.cylinderId, body.serial);
  const refs = [{ role: 'cylinder', cylinderId: body.cylinderId }];
  await addFact(desk, {
    id: received.id,
    kind: 'cylinder-registered',
    at: { instant: received.happenedAt },
    body,
    refs,
  });
  if (!body.gas) return;
  await lock(desk.tx, tenantId, { gas: { cylinderIds: [body.cylinderId], since: received.happenedAt } });
  await desk.tx.weighing.create({
    data: {
      tenantId,
      id: desk.world.newId(),
      cylinderId: body.cylinderId,
      factId: received.id,
      role: 'before',
      value: body.gas.gross.value,
      unit: body.gas.gross.unit,
      grams: bookedGrams(body.gas.gross),
      tareGrams,
      at: toDate(received.happenedAt),
    },
  });
  desk.accounts.add(account.id);
}

async function createCylinder(
  desk: Case,
  { body, happenedAt }: Received<CommandBody<'register-cylinder'>>,
): Promise<void> {
  const { tenantId } = desk;
  await assertCustomer(desk, body.ownerCustomerId);
  await desk.tx.cylinder.create({
    data: { tenantId, id: body.cylinderId, ...stampsOf(body), createdAt: toDate(desk.recordedAt) },
  });
  await desk.tx.cylinderTare.create({
    data: {
      tenantId,
      id: desk.world.newId(),
      cylinderId: body.cylinderId,
      value: body.tare.value,
      unit: body.tare.unit,
      grams: bookedGrams(body.tare),
      fromAt: toDate(happenedAt),
      recordedAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('cylinder', body.cylinderId, 'made');
}

async function assertCustomer(desk: Case, id: string | undefined): Promise<void> {
  if (id === undefined) return;
  const known = await desk.tx.customer.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!known) throw notFound();
}

/** What is stamped on the shoulder, as columns. */
function stampsOf(body: CommandBody<'register-cylinder'>) {
  const kept = body.kind === 'recovery' ? undefined : body.gas?.refrigerant;
  const psig = body.servicePressurePsig;
  const orNull = <T>(value: T | undefined): T | null => value ?? null;
  return {
    kind: body.kind,
    specification: body.specification,
    serial: body.serial,
    label: orNull(body.label),
    waterCapacityKg: toNumber(exactGrams(body.waterCapacity)) / 1000,
    servicePressureKpaGauge: psig === undefined ? null : psig * KPA_PER_PSI,
    madeMonth: orNull(body.madeMonth),
    testedMonth: orNull(body.testedMonth),
    ownerCustomerId: orNull(body.ownerCustomerId),
    dedicatedTo: orNull(body.dedicatedTo ?? kept),
    gasState: orNull(body.gas?.state),
  };
}

/** Two phones may register one cylinder: a serial met before is asked about, never refused. */
async function askAboutTwins(desk: Case, cylinderId: string, serial: string): Promise<void> {
  const twins = await desk.tx.cylinder.count({ where: { tenantId: desk.tenantId, serial, id: { not: cylinderId } } });
  if (twins === 0) return;
  const text = `Another cylinder bears the serial ${serial}. Check whether they are one.`;
  desk.raise({ code: 'cylinder-likeness', text, subject: { kind: 'cylinder', id: cylinderId } });
}

/** The tare in force at an instant, in grams. @throws Refusal not-found for an unknown cylinder */
export async function tareOf(desk: Pick<Case, 'tx' | 'tenantId'>, cylinderId: string, at: string): Promise<number> {
  await cylinderAccount(desk, cylinderId);
  const rows = await desk.tx.cylinderTare.findMany({
    where: { tenantId: desk.tenantId, cylinderId },
    orderBy: { fromAt: 'asc' },
  });
  // A use before the first stamp was read still has that tare.
  return (rows.findLast((row) => row.fromAt <= toDate(at)) ?? rows[0])?.grams ?? 0;
}
