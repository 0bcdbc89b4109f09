import type { CommandBody } from '@ullage/contracts';
import { bookedGrams, exactGrams, KPA_PER_PSI, toNumber } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { tareAt } from '../gas/tares.ts';
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
    if (!carrier || carrier.withdrawnAt) throw notFound();
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

type Cylinder = CommandBody<'register-cylinder'>;
/** A cylinder as it comes into the books. */
export interface Entered {
  readonly factId: string;
  readonly happenedAt: string;
  readonly body: Cylinder;
  /** Where its stamps stand in the command, as `cylinders/3/`. */
  readonly under?: string;
  /** The delivery it came with: its gas is then bought, in whatever state. */
  readonly deliveryId?: string;
  readonly locationId?: string | undefined;
}

export const registerCylinder = (desk: Case, { id, happenedAt, body }: Received<Cylinder>): Promise<void> =>
  enterCylinder(desk, { factId: id, happenedAt, body });

/** A cylinder by its stamps. What is in it is weighed in: its first weighing opens its account. */
export async function enterCylinder(desk: Case, entered: Entered): Promise<void> {
  const { tenantId } = desk;
  const { body, factId, happenedAt, deliveryId } = entered;
  assertPossible(entered);
  await createCylinder(desk, entered);
  const account = await desk.tx.gasAccount.create({
    data: { tenantId, id: desk.world.newId(), kind: 'cylinder', cylinderId: body.cylinderId },
  });
  await askAboutTwins(desk, body.cylinderId, body.serial);
  await addFact(desk, {
    id: factId,
    kind: 'cylinder-registered',
    at: { instant: happenedAt },
    body: { ...body, ...(deliveryId === undefined ? {} : { deliveryId }) },
    refs: [{ role: 'cylinder', cylinderId: body.cylinderId }],
  });
  if (!body.gas) return;
  await lock(desk.tx, tenantId, { gas: { cylinderIds: [body.cylinderId], since: happenedAt } });
  await desk.tx.weighing.create({
    data: {
      tenantId,
      id: desk.world.newId(),
      cylinderId: body.cylinderId,
      factId,
      role: 'before',
      value: body.gas.gross.value,
      unit: body.gas.gross.unit,
      grams: bookedGrams(body.gas.gross),
      tareGrams: bookedGrams(body.tare),
      at: toDate(happenedAt),
    },
  });
  desk.accounts.add(account.id);
}

/** @throws Refusal for a weight below the tare, or a gas that the cylinder is not for */
function assertPossible({ body, under = '' }: Entered): void {
  if (!body.gas) return;
  if (bookedGrams(body.gas.gross) < bookedGrams(body.tare))
    throw refuseField(
      under === '' ? 'gas/gross' : `${under}gross`,
      'Gross weight: below the tare; check both figures.',
    );
  if (body.dedicatedTo !== undefined && body.dedicatedTo !== body.gas.refrigerant)
    throw refuseField('gas/refrigerant', `Refrigerant: the cylinder is for ${body.dedicatedTo}; check the label.`);
}

async function createCylinder(desk: Case, { body, happenedAt, locationId }: Entered): Promise<void> {
  const { tenantId } = desk;
  await assertCustomer(desk, body.ownerCustomerId);
  await desk.tx.cylinder.create({
    data: {
      tenantId,
      id: body.cylinderId,
      ...stampsOf(body),
      locationId: locationId ?? null,
      createdAt: toDate(desk.recordedAt),
    },
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
  if (!known || known.withdrawnAt) throw notFound();
}

/** What is stamped on the shoulder, as columns. */
function stampsOf(body: Cylinder) {
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
  const twins = await desk.tx.cylinder.count({
    where: { tenantId: desk.tenantId, withdrawnAt: null, serial, id: { not: cylinderId } },
  });
  if (twins === 0) return;
  const text = `Another cylinder bears the serial ${serial}. Check whether they are one.`;
  desk.raise({ code: 'cylinder-likeness', text, subject: { kind: 'cylinder', id: cylinderId } });
}

/** The tare in force at an instant, in grams. @throws Refusal not-found for an unknown cylinder */
export async function tareOf(desk: Pick<Case, 'tx' | 'tenantId'>, cylinderId: string, at: string): Promise<number> {
  await cylinderAccount(desk, cylinderId);
  const rows = await desk.tx.cylinderTare.findMany({ where: { tenantId: desk.tenantId, cylinderId } });
  return tareAt(rows, toDate(at));
}
