/** Manifests: cylinders sent to a reclaimer, and what was accepted of them. */
import type { CommandBody } from '@ullage/contracts';
import { composition, stepAt } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { contentsOf } from '../gas/contents.ts';
import { assertCustody, custodySteps, settleCustody } from '../gas/custody.ts';
import { shipmentOf, standingAcceptances } from '../gas/shipments.ts';
import type { Acceptance, Shipment, ShipmentLine } from '../gas/shipments.ts';
import { refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';
import { assertPlaces, locationOf, lockEach, SCALE_NOISE_GRAMS, tareUnder } from './keeping.ts';
import { askIfUnfit } from './unfit-to-send.ts';
import { keepWeighings } from './weigh.ts';

type Of<K extends 'record-shipment' | 'record-acceptance'> = Received<CommandBody<K>>;

/** Cylinders leave for a reclaimer, weighed. Their gas stays ours until it is accepted. */
export async function recordShipment(desk: Case, received: Of<'record-shipment'>): Promise<void> {
  const { body, happenedAt: at, id: factId } = received;
  const { receiverId, scaleId } = body;
  const receiver = await locationOf(desk, receiverId);
  await assertPlaces(
    desk,
    body.cylinders.map(({ fromId }) => fromId),
  );
  await assertInstrument(desk, scaleId);
  const accounts = await lockEach(
    desk,
    body.cylinders.map(({ cylinderId }) => cylinderId),
    at,
  );
  if (receiver.kind !== 'reclaimer')
    throw refuseField('receiverId', `Receiver: ${receiver.name} is no reclaimer; choose one, or register it.`);
  const now = { state: 'placed', placeId: receiverId } as const;
  const moved = body.cylinders.map(({ cylinderId, fromId }, i) => ({
    ...{ cylinderId, fromId, now, field: `cylinders/${i}/fromId` },
  }));
  await assertCustody(desk, moved, at);
  const lines: ShipmentLine[] = [];
  for (const [i, { cylinderId, fromId, gross }] of body.cylinders.entries()) {
    if (fromId === receiverId)
      throw refuseField(`cylinders/${i}/fromId`, `Cylinder: is at ${receiver.name} already; leave it out.`);
    const tareGrams = await tareUnder(desk, { cylinderId, gross, field: `cylinders/${i}/gross` }, at);
    lines.push(await lineOf(desk, { cylinderId, fromId, gross, tareGrams, account: accounts[i] ?? '' }));
  }
  await addFact(desk, {
    id: factId,
    kind: 'shipment',
    at: { instant: at },
    body: { ...body, receiver: receiver.name, cylinders: lines },
    refs: [...lines.map(({ cylinderId }) => ({ role: 'cylinder', cylinderId })), ...instrumentRef('scale', scaleId)],
  });
  for (const { cylinderId, gross, tareGrams } of lines)
    await keepWeighings(desk, { cylinderId, factId, before: gross, scaleId, at, tareGrams });
  for (const account of accounts) desk.accounts.add(account);
  for (const { cylinderId } of lines) await askIfUnfit(desk, { cylinderId, purpose: body.purpose, at });
  await settleCustody(
    desk,
    lines.map(({ cylinderId }) => cylinderId),
  );
}

/** A line of the paper, as the books had the cylinder when it left. */
async function lineOf(
  desk: Case,
  of: Pick<ShipmentLine, 'cylinderId' | 'fromId' | 'gross' | 'tareGrams'> & { readonly account: string },
): Promise<ShipmentLine> {
  const { account, ...line } = of;
  const contents = await contentsOf(desk.tx, desk.tenantId, account);
  return {
    ...line,
    netGrams: Math.max(0, bookedGrams(line.gross) - line.tareGrams),
    booked: composition(contents),
    owners: [...new Set(contents.map(({ holding }) => holding.owner))],
    states: [...new Set(contents.map(({ holding }) => holding.state))],
  };
}

/** What the receiver's scale said. What it did not take stands in discrepancy, with the reason. */
export async function recordAcceptance(desk: Case, received: Of<'record-acceptance'>): Promise<void> {
  const { body, happenedAt: at } = received;
  const shipment = await shipmentOf(desk, body.shipmentId);
  const ids = body.cylinders.map(({ cylinderId }) => cylinderId);
  const accounts = await lockEach(desk, ids, at);
  const steps = await custodySteps(desk, ids);
  const earlier = (await standingAcceptances(desk, [shipment.id])).get(shipment.id);
  for (const [i, said] of body.cylinders.entries()) {
    const { cylinderId } = said;
    const before = earlier?.get(cylinderId);
    const step = stepAt(steps.get(cylinderId) ?? [], at);
    // Where it has gone on since, what was in it by then is no longer what was sent.
    const isThere = step?.factId === shipment.id || step?.factId === before?.factId;
    assertAcceptable(said, { line: lineIn(shipment, cylinderId, i), under: `cylinders/${i}`, at, before, isThere });
  }
  await addFact(desk, {
    id: received.id,
    kind: 'acceptance',
    at: { instant: at },
    body: { ...body, purpose: shipment.purpose, receiver: shipment.receiver },
    refs: ids.map((cylinderId) => ({ role: 'cylinder', cylinderId })),
  });
  for (const account of accounts) desk.accounts.add(account);
  await settleCustody(desk, ids);
}

/** @throws Refusal for a cylinder that is not on the manifest */
function lineIn({ lines }: Shipment, cylinderId: string, index: number): ShipmentLine {
  const line = lines.find((one) => one.cylinderId === cylinderId);
  if (!line)
    throw refuseField(`cylinders/${index}/cylinderId`, 'Cylinder: is not on this manifest; choose one that is.');
  return line;
}

interface Standing {
  readonly line: ShipmentLine;
  readonly under: string;
  readonly at: string;
  readonly before: Acceptance | undefined;
  readonly isThere: boolean;
}
/** @throws Refusal for what was accepted at a time when it cannot have been, or with a difference and no reason */
function assertAcceptable({ accepted, why }: Acceptance['said'], { line, under, at, before, isThere }: Standing): void {
  if (before && at < before.happenedAt)
    throw refuseField(`${under}/cylinderId`, 'Cylinder: was accepted later than this; give that time or a later one.');
  if (!isThere)
    throw refuseField(`${under}/cylinderId`, 'Cylinder: was not with the receiver then; give the time of acceptance.');
  if (Math.abs(bookedGrams(accepted) - line.netGrams) > SCALE_NOISE_GRAMS && why === undefined)
    throw refuseField(
      `${under}/why`,
      `Why the weights differ: ${line.netGrams} g were sent; say what the receiver said.`,
    );
}
