import type { CommandBody } from '@ullage/contracts';
import { circuitAccount, cylinderAccount } from '../gas/accounts.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { assertInstrument, instrumentRef, lockedVisit, recordFact } from './facts.ts';
import type { Reference } from './facts.ts';
import { tareOf } from './register.ts';
import { keptBarometer, readingKpa } from './site-readings.ts';
import { gramsBetween, keepWeighings } from './weigh.ts';

const cylinderRef = (cylinderId: string): Reference => ({ role: 'cylinder', cylinderId });

type GasMove = CommandBody<'record-recovery'> | CommandBody<'record-charge'>;
/** Weights that an act rests on: refused where no cylinder could show them, kept as entered. What they moved is derived. */
async function weighedIn(desk: Case, { body, id: factId, happenedAt: at }: Received<GasMove>) {
  await assertInstrument(desk, body.scaleId);
  const { cylinderId, before, after, scaleId } = body;
  return { cylinderId, factId, before, after, scaleId, at, tareGrams: await tareOf(desk, cylinderId, at) };
}

function touch(desk: Case, ...accounts: readonly string[]): void {
  for (const account of accounts) desk.accounts.add(account);
}

/** Gas out of a circuit into a cylinder. What the scale showed is booked, whatever the books expected. */
export async function recordRecovery(desk: Case, received: Received<CommandBody<'record-recovery'>>): Promise<void> {
  const { body, happenedAt: since } = received;
  const visit = await lockedVisit(desk, body, { cylinderIds: [body.cylinderId], since });
  const [from, to] = [await circuitAccount(desk, body.circuitId), await cylinderAccount(desk, body.cylinderId)];
  await assertInstrument(desk, body.machineId);
  readingKpa({ field: 'stop', label: 'Stopped at', reading: body.stop }, visit.site);
  const weighed = await weighedIn(desk, received);
  await gramsBetween(desk, weighed, { direction: 'in' });
  const refs = [
    cylinderRef(body.cylinderId),
    ...instrumentRef('machine', body.machineId),
    ...instrumentRef('scale', body.scaleId),
  ];
  await recordFact(desk, received, { kind: 'recovery', refs, keep: keptBarometer(visit.site) });
  await keepWeighings(desk, weighed);
  touch(desk, from, to);
}

/** Gas into a circuit from a cylinder, by gross weights. What it is made of follows from what was in the cylinder. */
export async function recordCharge(desk: Case, received: Received<CommandBody<'record-charge'>>): Promise<void> {
  const { body, happenedAt: since } = received;
  await lockedVisit(desk, body, { cylinderIds: [body.cylinderId], since });
  const [to, from] = [await circuitAccount(desk, body.circuitId), await cylinderAccount(desk, body.cylinderId)];
  const weighed = await weighedIn(desk, received);
  await gramsBetween(desk, weighed, { direction: 'out' });
  const refs = [cylinderRef(body.cylinderId), ...instrumentRef('scale', body.scaleId)];
  await recordFact(desk, received, { kind: 'charge', refs });
  await keepWeighings(desk, weighed);
  touch(desk, from, to);
}

/** Gas released by opening: only as entered, in the addition but not in the leak. */
export async function recordServiceLoss(
  desk: Case,
  received: Received<CommandBody<'record-service-loss'>>,
): Promise<void> {
  const { body, happenedAt: since } = received;
  await lockedVisit(desk, body, { since });
  const from = await circuitAccount(desk, body.circuitId);
  await recordFact(desk, received, { kind: 'service-loss' });
  touch(desk, from);
}
