/** Cylinders that leave: back to their supplier, to scrap, or nobody knows where. */
import type { CommandBody, CommandName, Mass } from '@ullage/contracts';
import { stepAt } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { contentsOf } from '../gas/contents.ts';
import { assertCustody, assertHere, custodySteps, settleCustody } from '../gas/custody.ts';
import { refuseField } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { addFact, assertInstrument, instrumentRef } from './facts.ts';
import { assertPlaces, closeLost, locationOf, lockEach, SCALE_NOISE_GRAMS, tareUnder } from './keeping.ts';
import { keepWeighings } from './weigh.ts';

type Of<K extends CommandName> = Received<CommandBody<K>>;

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
