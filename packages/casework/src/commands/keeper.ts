/** Cylinders that leave: to a reclaimer, back to their supplier, to scrap, or nobody knows where. */
import type { CommandBody, CommandName, Mass } from '@ullage/contracts';
import { composition, lastStep, stepAt } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { contentsOf } from '../gas/contents.ts';
import { assertCustody, assertHere, custodySteps, settleCustody, STANDS } from '../gas/custody.ts';
import { shipmentOf, standingAcceptances } from '../gas/shipments.ts';
import type { ShipmentLine } from '../gas/shipments.ts';
import { notFound, refuseField, toDate, toInstant } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';
import { tareOf } from './register.ts';
import { askIfUnfit } from './unfit-to-send.ts';
import { assertHolds, keepWeighings } from './weigh.ts';

type Of<K extends CommandName> = Received<CommandBody<K>>;

/** Two readings of one weight differ by so much by themselves: two sigma of a field scale (common practice). */
const SCALE_NOISE_GRAMS = 28;

/** Locks the accounts of some cylinders, each named once. @throws Refusal not-found for an unknown one */
async function lockEach(desk: Case, ids: readonly string[], since: string): Promise<string[]> {
  if (new Set(ids).size < ids.length)
    throw refuseField('cylinders', 'Cylinders: one stands there twice; name each once.');
  await lock(desk.tx, desk.tenantId, { gas: { cylinderIds: ids, since } });
  const accounts = [];
  for (const id of ids) accounts.push(await cylinderAccount(desk, id));
  return accounts;
}

async function locationOf(desk: Case, id: string): Promise<{ kind: string; name: string }> {
  const row = await desk.tx.location.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!row) throw notFound();
  return row;
}
async function assertPlaces(desk: Case, ids: readonly (string | null)[]): Promise<void> {
  for (const id of new Set(ids)) if (id !== null) await locationOf(desk, id);
}

interface OnScale {
  readonly cylinderId: string;
  readonly gross: Mass;
  readonly field: string;
}
/** Reads a cylinder on the scale. @throws Refusal for a weight that it could not show */
async function tareUnder(desk: Case, { cylinderId, gross, field }: OnScale, at: string): Promise<number> {
  const tareGrams = await tareOf(desk, cylinderId, at);
  if (bookedGrams(gross) + SCALE_NOISE_GRAMS < tareGrams)
    throw refuseField(field, 'Gross weight: below the tare; check the figure, or put the tare right.');
  await assertHolds(desk, { cylinderId, tareGrams }, { gross, role: 'weight', field });
  return tareGrams;
}

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
  for (const [i, { cylinderId, accepted, why }] of body.cylinders.entries()) {
    const line = shipment.lines.find((one) => one.cylinderId === cylinderId);
    const under = `cylinders/${i}`;
    if (!line) throw refuseField(`${under}/cylinderId`, 'Cylinder: is not on this manifest; choose one that is.');
    const before = earlier?.get(cylinderId);
    if (before && at < before.happenedAt)
      throw refuseField(
        `${under}/cylinderId`,
        'Cylinder: was accepted later than this; give that time or a later one.',
      );
    const step = stepAt(steps.get(cylinderId) ?? [], at);
    if (step?.factId !== shipment.id && step?.factId !== before?.factId)
      throw refuseField(
        `${under}/cylinderId`,
        'Cylinder: was not with the receiver then; give the time of acceptance.',
      );
    if (Math.abs(bookedGrams(accepted) - line.netGrams) > SCALE_NOISE_GRAMS && why === undefined)
      throw refuseField(
        `${under}/why`,
        `Why the weights differ: ${line.netGrams} g were sent; say what the receiver said.`,
      );
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

/** Nobody knows where it is. Its gas stands in discrepancy, not in the air: that would be a guess. */
export async function markLost(desk: Case, received: Of<'mark-lost'>): Promise<void> {
  const { cylinderId, ...body } = received.body;
  const at = received.happenedAt;
  const accounts = await lockEach(desk, [cylinderId], at);
  await assertNotGone(desk, cylinderId, at);
  const today = desk.world.calendar.dayOf(at, desk.tenant.timeZone);
  if (body.lastSeenOn !== undefined && body.lastSeenOn > today)
    throw refuseField('lastSeenOn', 'Last seen: the day lies ahead; give today or a past day.');
  await told(desk, received, { kind: 'cylinder-lost', cylinderId, body, accounts });
  desk.raise({
    code: 'cylinder-lost',
    text: 'A cylinder is marked lost. Look for it; close this when it is found or given up.',
    subject: { kind: 'cylinder', id: cylinderId },
  });
}

/** It is there again; also where nobody has said yet that it was lost. */
export async function markFound(desk: Case, received: Of<'mark-found'>): Promise<void> {
  const { cylinderId, ...body } = received.body;
  await locationOf(desk, body.toId);
  await assertInstrument(desk, body.scaleId);
  const accounts = await lockEach(desk, [cylinderId], received.happenedAt);
  await assertNotGone(desk, cylinderId, received.happenedAt);
  await weighedAway(desk, received, { kind: 'cylinder-found', cylinderId, body, accounts });
  await closeLost(desk, cylinderId);
}

/** It is no open item any more. */
async function closeLost(desk: Case, cylinderId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const open = { tenantId, kind: 'record', reason: 'cylinder-lost', subjectId: cylinderId, closedAt: null };
  const rows = await tx.attention.findMany({ where: open, select: { id: true } });
  const data = { closedAt: toDate(desk.recordedAt), closedHow: 'no-longer-so', closedBy: desk.actor.userId };
  if (rows.length > 0) await tx.attention.updateMany({ where: open, data });
  for (const { id } of rows) desk.changed('attention', id);
}

/** Back to its supplier. What the scale shows of the firm's own unused gas goes along. */
export async function returnCylinder(desk: Case, received: Of<'return-cylinder'>): Promise<void> {
  const { cylinderId, ...body } = received.body;
  const accounts = await lockedWhereSeen(desk, received, { state: 'gone', how: 'returned' });
  const contents = await contentsOf(desk.tx, desk.tenantId, accounts[0] ?? '');
  if (contents.some(({ holding }) => holding.owner !== null))
    throw refuseField('cylinderId', 'Cylinder: holds gas of a customer; move it into another before it goes back.');
  if (contents.some(({ holding }) => !['new', 'reclaimed'].includes(holding.state)))
    throw refuseField('cylinderId', 'Cylinder: holds used gas; that goes to a reclaimer, not to a supplier.');
  await weighedAway(desk, received, { kind: 'cylinder-returned', cylinderId, body, accounts });
}

/** Given to be scrapped, its heel recovered. */
export async function scrapCylinder(desk: Case, received: Of<'scrap-cylinder'>): Promise<void> {
  const { cylinderId, ...body } = received.body;
  const accounts = await lockedWhereSeen(desk, received, { state: 'gone', how: 'scrapped' });
  const tareGrams = await tareUnder(desk, { cylinderId, gross: body.gross, field: 'gross' }, received.happenedAt);
  const left = bookedGrams(body.gross) - tareGrams;
  if (left > SCALE_NOISE_GRAMS)
    throw refuseField('gross', `Gross weight: ${left} g are left in it; recover them into a recovery cylinder first.`);
  await weighedAway(desk, received, { kind: 'cylinder-scrapped', cylinderId, body, accounts });
}

/** A report that was a slip. Only what moved a cylinder last can be taken back: what came later rests on it. */
export async function takeBack(desk: Case, received: Of<'take-back'>): Promise<void> {
  const { tx, tenantId } = desk;
  const { factId, why } = received.body;
  const fact = await tx.fact.findUnique({
    where: { tenantId_id: { tenantId, id: factId }, kind: { in: TAKEN_BACK } },
    include: { factRefs: { where: { cylinderId: { not: null } }, select: { cylinderId: true } } },
  });
  if (!fact) throw notFound();
  const ids = [...new Set(fact.factRefs.flatMap(({ cylinderId }) => cylinderId ?? []))];
  const accounts = await lockEach(desk, ids, toInstant(fact.happenedAt ?? fact.recordedAt));
  if ((await tx.fact.count({ where: { tenantId, id: factId, ...STANDS } })) === 0)
    throw refuseField('factId', 'Report: is taken back already.');
  if (fact.kind === 'shipment' && (await standingAcceptances(desk, [factId])).size > 0)
    throw refuseField('factId', 'Manifest: some of it is accepted; take the acceptance back first.');
  for (const [id, steps] of await custodySteps(desk, ids)) {
    const own = steps.some((step) => step.factId === factId);
    if (own && lastStep(steps)?.factId !== factId) throw await movedSince(desk, id);
  }
  await addFact(desk, {
    id: received.id,
    kind: 'taken-back',
    at: { instant: received.happenedAt },
    body: { why, what: fact.kind },
    refs: ids.map((cylinderId) => ({ role: 'cylinder', cylinderId })),
    corrects: factId,
  });
  for (const account of accounts) desk.accounts.add(account);
  await settleCustody(desk, ids);
  if (fact.kind === 'cylinder-lost') for (const id of ids) await closeLost(desk, id);
}
const TAKEN_BACK = [
  'hand-over',
  'shipment',
  'acceptance',
  'cylinder-lost',
  'cylinder-found',
  'cylinder-returned',
  'cylinder-scrapped',
];

async function movedSince(desk: Case, id: string) {
  const { serial, label } = await desk.tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId: desk.tenantId, id } },
  });
  return refuseField('factId', `Report: ${label ?? serial} was moved since; take back what came later first.`);
}

async function assertNotGone(desk: Case, cylinderId: string, at: string): Promise<void> {
  const step = stepAt((await custodySteps(desk, [cylinderId])).get(cylinderId) ?? [], at);
  if (step?.now.state === 'gone') await assertHere(desk, { cylinderId, field: 'cylinderId', at });
}

/** Locks the one cylinder of a report that it is gone. @throws Refusal where it is not where it was seen */
async function lockedWhereSeen(
  desk: Case,
  received: Of<'return-cylinder'> | Of<'scrap-cylinder'>,
  now: { readonly state: 'gone'; readonly how: 'returned' | 'scrapped' },
): Promise<string[]> {
  const { cylinderId, fromId, scaleId } = received.body;
  await assertPlaces(desk, [fromId]);
  await assertInstrument(desk, scaleId);
  const accounts = await lockEach(desk, [cylinderId], received.happenedAt);
  await assertCustody(desk, [{ cylinderId, fromId, now, field: 'fromId' }], received.happenedAt);
  return accounts;
}

interface Told {
  readonly kind: string;
  readonly cylinderId: string;
  readonly body: object;
  readonly accounts: readonly string[];
  readonly scaleId?: string | undefined;
}
async function told(
  desk: Case,
  { id, happenedAt: at }: Received<unknown>,
  { kind, cylinderId, body, accounts, scaleId }: Told,
): Promise<void> {
  const refs = [{ role: 'cylinder', cylinderId }, ...instrumentRef('scale', scaleId)];
  await addFact(desk, { id, kind, at: { instant: at }, body, refs });
  for (const account of accounts) desk.accounts.add(account);
  await settleCustody(desk, [cylinderId]);
}

/** The same with what the scale showed. */
async function weighedAway(
  desk: Case,
  received: Received<unknown>,
  given: Told & { readonly body: { readonly gross: Mass; readonly scaleId?: string | undefined } },
): Promise<void> {
  const { cylinderId, body } = given;
  const { gross, scaleId } = body;
  const at = received.happenedAt;
  const tareGrams = await tareUnder(desk, { cylinderId, gross, field: 'gross' }, at);
  const heelGrams = Math.max(0, bookedGrams(gross) - tareGrams);
  await told(desk, received, { ...given, body: { ...body, heelGrams }, scaleId });
  await keepWeighings(desk, { cylinderId, factId: received.id, before: gross, scaleId, at, tareGrams });
}
