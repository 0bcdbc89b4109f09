/** Facts of a visit that move no gas: each is checked against the visit it belongs to and written down as it was reported. */
import type { CommandBody, CommandName } from '@ullage/contracts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import {
  addFact,
  assertInstrument,
  assertLeakPoints,
  assertLook,
  instrumentRef,
  leakRefs,
  lockedVisit,
  photoRefs,
  recordFact,
} from './facts.ts';
import { leaveInstrument } from '../recalls/leave.ts';
import { rethinkCircuit, rethinkRecoveries } from '../gas/rethink.ts';
import { assertTemperature, keptBarometer, readingKpa } from './site-readings.ts';

type Of<K extends CommandName> = Received<CommandBody<K>>;

export async function arrive(desk: Case, received: Of<'arrive'>): Promise<void> {
  const visit = await lockedVisit(desk, received.body);
  if (visit.state === 'proposed') throw refuseField('visitId', 'Visit: nobody is placed on it yet; ask dispatch.');
  await recordFact(desk, received, { kind: 'arrival' });
  if (visit.state !== 'placed') return;
  const data = { state: 'on-site', startedAt: toDate(received.happenedAt), version: { increment: 1 } };
  await desk.tx.visit.update({ where: { tenantId_id: { tenantId: desk.tenantId, id: visit.id } }, data });
}

export async function finishVisit(desk: Case, received: Of<'finish-visit'>): Promise<void> {
  const visit = await lockedVisit(desk, received.body);
  const finishedAt = toDate(received.happenedAt);
  if (visit.startedAt && finishedAt < visit.startedAt) {
    throw refuseField('visitId', 'End: before the arrival; check the clock of the device.');
  }
  await recordFact(desk, received, { kind: 'departure' });
  const data = { state: 'done', startedAt: visit.startedAt ?? finishedAt, finishedAt, version: { increment: 1 } };
  await desk.tx.visit.update({ where: { tenantId_id: { tenantId: desk.tenantId, id: visit.id } }, data });
  for (const row of visit.visitCircuits) desk.circuits.add(row.circuitId);
}

export async function recordSafety(desk: Case, received: Of<'record-safety'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await recordFact(desk, received, { kind: 'safety' });
}

export async function recordToolCheck(desk: Case, received: Of<'record-tool-check'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await assertInstrument(desk, received.body.instrumentId);
  await recordFact(desk, received, {
    kind: 'tool-check',
    refs: instrumentRef('instrument', received.body.instrumentId),
  });
  if (received.body.result === 'fail') await leaveInstrument(desk, received.body.instrumentId);
}

export async function recordReadings(desk: Case, received: Of<'record-readings'>): Promise<void> {
  const { body } = received;
  const visit = await lockedVisit(desk, body);
  await assertInstrument(desk, body.gaugeId);
  const fields = [
    ['standing', 'Standing pressure'],
    ['suction', 'Suction pressure'],
    ['discharge', 'Discharge pressure'],
  ] as const;
  for (const [field, label] of fields) {
    const reading = body[field];
    if (reading) readingKpa({ field: field, label: label, reading: reading }, visit.site);
  }
  assertTemperature({ field: 'ambient', label: 'Ambient', reading: body.ambient });
  assertTemperature({ field: 'suctionLine', label: 'Suction line', reading: body.suctionLine });
  assertTemperature({ field: 'liquidLine', label: 'Liquid line', reading: body.liquidLine });
  const refs = instrumentRef('gauge', body.gaugeId);
  await recordFact(desk, received, { kind: 'readings', refs, keep: keptBarometer(visit.site) });
  if (body.stage === 'first') await rethinkCircuit(desk, { ...body, since: received.happenedAt });
}

export async function recordLook(desk: Case, received: Of<'record-look'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await assertInstrument(desk, received.body.instrumentId);
  const { instrumentId, photos } = received.body;
  const refs = [...instrumentRef('instrument', instrumentId), ...(await photoRefs(desk, photos))];
  await recordFact(desk, received, { kind: 'look', refs });
}

export async function recordLeakPoint(desk: Case, received: Of<'record-leak-point'>): Promise<void> {
  const { body } = received;
  const { tenantId } = desk;
  await lockedVisit(desk, body);
  await assertLook(desk, body.circuitId, body.lookId);
  const number = 1 + (await desk.tx.leakPoint.count({ where: { tenantId, circuitId: body.circuitId } }));
  await desk.tx.leakPoint.create({
    data: {
      tenantId,
      id: body.leakPointId,
      circuitId: body.circuitId,
      visitId: body.visitId,
      number,
      place: body.place,
      whereText: body.where,
      lowGramsPerYear: body.lowGramsPerYear ?? null,
      highGramsPerYear: body.highGramsPerYear ?? null,
      state: 'open',
      foundAt: toDate(received.happenedAt),
    },
  });
  const refs = [...leakRefs([body.leakPointId]), ...(await photoRefs(desk, body.photos))];
  await recordFact(desk, received, { kind: 'leak-point', refs });
  desk.changed('leak-point', body.leakPointId, 'made');
  await rethinkRecoveries(desk, { ...body, since: received.happenedAt });
}

export async function recordPlate(desk: Case, received: Of<'record-plate'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await recordFact(desk, received, { kind: 'plate', refs: await photoRefs(desk, received.body.photos) });
}

export async function recordConsent(desk: Case, received: Of<'record-consent'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await recordFact(desk, received, { kind: 'consent' });
  await rethinkRecoveries(desk, { ...received.body, since: received.happenedAt });
}

export async function recordRepair(desk: Case, received: Of<'record-repair'>): Promise<void> {
  const { body } = received;
  await lockedVisit(desk, body);
  await assertLeakPoints(desk, body.circuitId, body.leakPointIds);
  await recordFact(desk, received, { kind: 'repair', refs: leakRefs(body.leakPointIds) });
  await rethinkRecoveries(desk, { ...body, since: received.happenedAt });
}

export async function recordVerification(desk: Case, received: Of<'record-verification'>): Promise<void> {
  const { body } = received;
  const visit = await lockedVisit(desk, body);
  await assertLeakPoints(desk, body.circuitId, body.leakPointIds);
  if (body.start) readingKpa({ field: 'start', label: 'Pressure at the start', reading: body.start }, visit.site);
  if (body.end) readingKpa({ field: 'end', label: 'Pressure at the end', reading: body.end }, visit.site);
  const [startLabel, endLabel] = ['Temperature at the start', 'Temperature at the end'];
  assertTemperature({ field: 'startTemperature', label: startLabel, reading: body.startTemperature });
  assertTemperature({ field: 'endTemperature', label: endLabel, reading: body.endTemperature });
  await assertInstrument(desk, body.instrumentId);
  const refs = [...leakRefs(body.leakPointIds), ...instrumentRef('instrument', body.instrumentId)];
  await recordFact(desk, received, { kind: 'verification', refs });
  await rethinkRecoveries(desk, { ...body, since: received.happenedAt });
}

export async function recordVacuum(desk: Case, received: Of<'record-vacuum'>): Promise<void> {
  const { body } = received;
  const visit = await lockedVisit(desk, body);
  await assertInstrument(desk, body.gaugeId);
  body.readings.forEach((reading, index) =>
    readingKpa({ field: `readings/${index}/vacuum`, label: 'Vacuum', reading: reading.vacuum }, visit.site),
  );
  await recordFact(desk, received, { kind: 'vacuum', refs: instrumentRef('gauge', body.gaugeId) });
  await rethinkCircuit(desk, { ...body, since: received.happenedAt });
}

export async function recordInspection(desk: Case, received: Of<'record-inspection'>): Promise<void> {
  const { body } = received;
  await lockedVisit(desk, body);
  await assertLeakPoints(desk, body.circuitId, body.leakPointIds);
  await recordFact(desk, received, { kind: 'inspection', refs: leakRefs(body.leakPointIds) });
}

export async function stateNormalOperation(desk: Case, received: Of<'state-normal-operation'>): Promise<void> {
  await lockedVisit(desk, received.body);
  await recordFact(desk, received, { kind: 'normal-operation' });
}

export async function recordOwnerTold(desk: Case, received: Of<'record-owner-told'>): Promise<void> {
  const { circuitId, visitId, ...body } = received.body;
  if (visitId !== undefined) await lockedVisit(desk, { visitId, circuitId });
  else {
    const circuit = await desk.tx.circuit.findUnique({
      where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } },
    });
    if (!circuit || circuit.withdrawnAt) throw notFound();
  }
  await addFact(desk, {
    id: received.id,
    kind: 'owner-told',
    at: { instant: received.happenedAt },
    body,
    visitId,
    circuitId,
  });
}
