/** The contractor's own house: its units, the places where things stand, and its instruments. */
import type { CommandBody, CommandName } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import { dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { leaveInstrument } from '../recalls/leave.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';

type Of<K extends CommandName> = Received<CommandBody<K>>;
/** What was given of a body: Prisma is told nothing of the rest. */
type Given<T> = { [K in keyof T]: Exclude<T[K], undefined> };
const given = <T extends object>(fields: T): Partial<Given<T>> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<Given<T>>;

/** @throws Refusal not-found unless nobody is named or it is a person of ours */
async function assertPerson(desk: Case, id: string | null | undefined): Promise<void> {
  if (id === undefined || id === null) return;
  const known = await desk.tx.person.count({ where: { tenantId: desk.tenantId, withdrawnAt: null, id } });
  if (known === 0) throw notFound();
}

/** Units and limits count from now on; what was entered and answered before stays as it was. */
export async function changeSettings(desk: Case, { body }: Of<'change-settings'>): Promise<void> {
  await desk.tx.tenant.update({ where: { id: desk.tenantId }, data: given(body) });
  desk.changed('tenant', desk.tenantId);
}

export async function registerLocation(desk: Case, { body }: Of<'register-location'>): Promise<void> {
  const { locationId: id, keeperId = null, ...rest } = body;
  await assertPerson(desk, keeperId);
  await desk.tx.location.create({ data: { tenantId: desk.tenantId, id, keeperId, ...rest } });
  desk.changed('location', id, 'made');
}

export async function changeLocation(desk: Case, { body }: Of<'change-location'>): Promise<void> {
  const { tenantId } = desk;
  const { locationId: id, ...rest } = body;
  if ((await desk.tx.location.count({ where: { tenantId, id } })) === 0) throw notFound();
  await assertPerson(desk, rest.keeperId);
  await desk.tx.location.update({ where: { tenantId_id: { tenantId, id } }, data: given(rest) });
  desk.changed('location', id);
}

export async function changeInstrument(desk: Case, { body }: Of<'change-instrument'>): Promise<void> {
  const { tenantId } = desk;
  const { instrumentId: id, tag, madeOn, ...rest } = body;
  await assertInstrument(desk, id);
  await assertPerson(desk, rest.carrierId);
  if (tag !== undefined && (await desk.tx.instrument.count({ where: { tenantId, tag, id: { not: id } } })) > 0)
    throw refuseField('tag', `Tag: ${tag} stands on another instrument; give this one its own.`);
  const data: Prisma.InstrumentUncheckedUpdateInput = {
    ...given({ tag, ...rest }),
    ...(madeOn === undefined ? {} : { madeOn: dayToDate(madeOn) }),
  };
  await desk.tx.instrument.update({ where: { tenantId_id: { tenantId, id } }, data });
  desk.changed('instrument', id);
}

/** It is no longer offered; a report from before that arrives late may still name it. */
export async function retireInstrument(desk: Case, received: Of<'retire-instrument'>): Promise<void> {
  const { tenantId } = desk;
  const { instrumentId: id, why } = received.body;
  await assertInstrument(desk, id);
  const retired = await desk.tx.instrument.updateMany({
    where: { tenantId, id, retiredAt: null },
    data: { retiredAt: toDate(received.happenedAt) },
  });
  if (retired.count === 0) throw refuseField('instrumentId', 'Instrument: is retired already.');
  await addFact(desk, {
    id: received.id,
    kind: 'instrument-retired',
    at: { instant: received.happenedAt },
    body: { why },
    refs: instrumentRef('instrument', id),
  });
  desk.changed('instrument', id);
}

export async function recordCalibration(desk: Case, received: Of<'record-calibration'>): Promise<void> {
  const { instrumentId, ...body } = received.body;
  await assertInstrument(desk, instrumentId);
  const today = desk.world.calendar.dayOf(received.happenedAt, desk.tenant.timeZone);
  if (body.calibratedOn > today)
    throw refuseField('calibratedOn', 'Calibrated on: the day lies ahead; give today or a past day.');
  if (body.nextOn !== undefined && body.nextOn <= body.calibratedOn)
    throw refuseField('nextOn', 'Next one: give a day after the calibration.');
  await addFact(desk, {
    id: received.id,
    kind: 'calibration',
    at: { day: body.calibratedOn },
    body,
    refs: instrumentRef('instrument', instrumentId),
  });
  desk.changed('instrument', instrumentId);
  if (body.result === 'fail') await leaveInstrument(desk, instrumentId);
}
