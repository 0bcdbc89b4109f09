import type { CommandBody } from '@ullage/contracts';
import { bookedGrams, exactGrams, massText, sum } from '@ullage/units';
import type { EnteredMass } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { assertCustody, assertHere, settleCustody } from '../gas/custody.ts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { leaveCylinder } from '../recalls/leave.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';
import { enterCylinder, tareOf } from './register.ts';
import { assertHolds, keepWeighings } from './weigh.ts';

type Delivery = CommandBody<'record-delivery'>;

/** Gross of a cylinder that nobody weighed: tare and net of the invoice. */
function grossOf({ tare, net }: Pick<Delivery, 'tare' | 'net'>): EnteredMass {
  const unit = net.unit === 'lb-oz' ? 'lb' : net.unit;
  return { value: massText(sum([exactGrams(tare), exactGrams(net)]), unit, unit === 'g' ? 0 : 6), unit };
}

/** Bought gas comes in: every cylinder is registered with what is in it, and all stand at one place. */
export async function recordDelivery(desk: Case, received: Received<Delivery>): Promise<void> {
  const { body, happenedAt } = received;
  const { cylinders, supplier, note, locationId, state, net, refrigerant, ...stamps } = body;
  assertOnce(cylinders);
  if (locationId !== undefined) await placeOf(desk, locationId);
  for (const [index, { cylinderId, serial, label, gross }] of cylinders.entries()) {
    const gas = { refrigerant, state, gross: gross ?? grossOf({ tare: stamps.tare, net }) };
    await enterCylinder(desk, {
      factId: desk.world.newId(),
      happenedAt,
      under: `cylinders/${index}/`,
      body: { ...stamps, cylinderId, serial, label, gas },
      deliveryId: received.id,
      locationId,
    });
  }
  await addFact(desk, {
    id: received.id,
    kind: 'delivery',
    at: { instant: happenedAt },
    body: { supplier, note, refrigerant, state, net, locationId, cylinders: cylinders.length },
    refs: cylinders.map(({ cylinderId }) => ({ role: 'cylinder', cylinderId })),
  });
}

/** @throws Refusal for a serial or a cylinder that stands twice in one list */
function assertOnce(cylinders: readonly { cylinderId: string; serial: string }[]): void {
  const seen = new Map<string, number>();
  for (const [index, { serial }] of cylinders.entries()) {
    const before = seen.get(serial.toLowerCase());
    if (before !== undefined)
      throw refuseField(
        `cylinders/${index}/serial`,
        `Serial: ${serial} stands in rows ${before + 1} and ${index + 1}; each once.`,
      );
    seen.set(serial.toLowerCase(), index);
  }
}

async function placeOf(desk: Case, id: string): Promise<{ name: string }> {
  const row = await desk.tx.location.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!row) throw notFound();
  return row;
}

/**
 * Cylinders change hands. Each is locked first: of two people who take one cylinder, the second is told that it is no
 * longer where they saw it, and who was quicker. One that is told late counts for its time, and moves nothing that was
 * moved on since.
 */
export async function handOver(desk: Case, received: Received<CommandBody<'hand-over'>>): Promise<void> {
  const { body, happenedAt } = received;
  const { tenantId } = desk;
  const to = await placeOf(desk, body.toId);
  for (const fromId of new Set(body.cylinders.map(({ fromId: id }) => id)))
    if (fromId !== null) await placeOf(desk, fromId);
  const ids = body.cylinders.map(({ cylinderId }) => cylinderId);
  if (new Set(ids).size < ids.length)
    throw refuseField('cylinders', 'Cylinders: one stands there twice; name each once.');
  await lock(desk.tx, tenantId, { gas: { cylinderIds: ids, since: happenedAt } });
  for (const id of ids) await cylinderAccount(desk, id);
  const now = { state: 'placed', placeId: body.toId } as const;
  await assertCustody(
    desk,
    body.cylinders.map((one, i) => ({ ...one, now, field: `cylinders/${i}/fromId` })),
    happenedAt,
  );
  await addFact(desk, {
    id: received.id,
    kind: 'hand-over',
    at: { instant: happenedAt },
    body: { ...body, to: to.name },
    refs: ids.map((cylinderId) => ({ role: 'cylinder', cylinderId })),
  });
  await settleCustody(desk, ids);
}

/** What the scale shows of a cylinder at rest; the books follow it, and a difference is asked about. */
export async function weighCylinder(desk: Case, received: Received<CommandBody<'weigh-cylinder'>>): Promise<void> {
  const { body, id: factId, happenedAt: at } = received;
  const { cylinderId, scaleId, ...said } = body;
  await lock(desk.tx, desk.tenantId, { gas: { cylinderIds: [cylinderId], since: at } });
  const account = await cylinderAccount(desk, cylinderId);
  await assertHere(desk, { cylinderId, field: 'cylinderId', at });
  await assertInstrument(desk, scaleId);
  const tareGrams = await tareOf(desk, cylinderId, at);
  if (bookedGrams(body.gross) + TARE_SLACK_GRAMS < tareGrams)
    throw refuseField('gross', 'Gross weight: below the tare; check the figure, or put the tare right.');
  await assertHolds(desk, { cylinderId, tareGrams }, { gross: body.gross, role: 'weight', field: 'gross' });
  await addFact(desk, {
    id: factId,
    kind: 'cylinder-weighed',
    at: { instant: at },
    body: { ...said, scaleId },
    refs: [{ role: 'cylinder', cylinderId }, ...instrumentRef('scale', scaleId)],
  });
  await keepWeighings(desk, { cylinderId, factId, before: body.gross, scaleId, at, tareGrams });
  desk.accounts.add(account);
}
/** An empty cylinder may read a little less than its stamp: two sigma of a field scale (common practice). */
const TARE_SLACK_GRAMS = 28;

/** Another tare. The weighings under it are read anew, and what follows from them is posted anew. */
export async function correctTare(desk: Case, received: Received<CommandBody<'correct-tare'>>): Promise<void> {
  const { body, happenedAt: at } = received;
  const { tenantId } = desk;
  const { cylinderId, tare, since, why } = body;
  const account = await cylinderAccount(desk, cylinderId);
  const rows = await desk.tx.cylinderTare.findMany({
    where: { tenantId, cylinderId },
    orderBy: { fromAt: 'asc' },
  });
  const fromAt = since === 'always' ? (rows[0]?.fromAt ?? toDate(at)) : toDate(at);
  await lock(desk.tx, tenantId, { gas: { cylinderIds: [cylinderId], since: fromAt.toISOString() } });
  await desk.tx.cylinderTare.create({
    data: {
      tenantId,
      id: desk.world.newId(),
      cylinderId,
      value: tare.value,
      unit: tare.unit,
      grams: bookedGrams(tare),
      fromAt,
      recordedAt: toDate(desk.recordedAt),
    },
  });
  await addFact(desk, {
    id: received.id,
    kind: 'tare-corrected',
    at: { instant: at },
    body: { tare, since, why, was: rows.at(-1)?.grams ?? null },
    refs: [{ role: 'cylinder', cylinderId }],
  });
  desk.accounts.add(account);
  desk.changed('cylinder', cylinderId);
  await leaveCylinder(desk, cylinderId, 'tare-corrected');
}
