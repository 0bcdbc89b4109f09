import type { CommandBody } from '@ullage/contracts';
import { charging, recovering } from '@ullage/gasbook';
import type { GasState, Posting } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { circuitAccount, cylinderAccount, outsideAccounts } from '../gas/accounts.ts';
import { askAfterAct } from '../gas/ask-after.ts';
import { registeredGas } from '../gas/contents.ts';
import { enterFact } from '../gas/movement-rows.ts';
import { notFound } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { assertInstrument, instrumentRef, lockedVisit, recordFact } from './facts.ts';
import type { Reference } from './facts.ts';
import { tareOf } from './register.ts';
import { readingKpa, siteBarometerKpa } from './site-readings.ts';
import { suspectAir } from './suspect-air.ts';
import { gramsBetween, keepWeighings } from './weigh.ts';

/** Customer and refrigerant of a circuit: whose gas it holds. */
export async function circuitGas(desk: Case, circuitId: string): Promise<{ refrigerant: string; customerId: string }> {
  const row = await desk.tx.circuit.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: circuitId } },
    select: { refrigerant: true, unit: { select: { site: { select: { customerId: true } } } } },
  });
  if (!row) throw notFound();
  return { refrigerant: row.refrigerant, customerId: row.unit.site.customerId };
}

const cylinderRef = (cylinderId: string): Reference => ({ role: 'cylinder', cylinderId });

/** Gas out of a circuit into a cylinder. What the scale showed is booked, whatever the books expected. */
export async function recordRecovery(desk: Case, received: Received<CommandBody<'record-recovery'>>): Promise<void> {
  const { body, id: factId, happenedAt: at } = received;
  const visit = await lockedVisit(desk, body);
  const [from, to] = [await circuitAccount(desk, body.circuitId), await cylinderAccount(desk, body.cylinderId)];
  await assertInstrument(desk, body.scaleId);
  await assertInstrument(desk, body.machineId);
  const stopKpa = readingKpa({ field: 'stop', label: 'Stopped at', reading: body.stop }, visit.site);
  const weighed = {
    cylinderId: body.cylinderId,
    factId,
    before: body.before,
    after: body.after,
    scaleId: body.scaleId,
    at,
    tareGrams: await tareOf(desk, body.cylinderId, at),
  };
  const grams = await gramsBetween(desk, weighed, 'in');
  const { refrigerant, customerId } = await circuitGas(desk, body.circuitId);
  await askAfterAct(desk, {
    act: 'recovery',
    cylinderId: body.cylinderId,
    refrigerant,
    circuitOwner: customerId,
    grams,
    at,
  });
  const refs = [
    cylinderRef(body.cylinderId),
    ...instrumentRef('machine', body.machineId),
    ...instrumentRef('scale', body.scaleId),
  ];
  await recordFact(desk, received, { kind: 'recovery', refs });
  await keepWeighings(desk, weighed);
  const postings = await postingsOf(desk, { ...body, kind: 'recovery', grams, at });
  await enterFact(desk, postings, { factId, visitId: body.visitId, measured: 'scale' });
  const barometerKpa = siteBarometerKpa(visit.site);
  await suspectAir(desk, { factId, account: to, body, stopKpa, barometerKpa, refrigerant });
  desk.accounts.add(from);
  desk.accounts.add(to);
}

/** What a cylinder was declared to hold. Read off its registration and never off the books, so that arrival order plays no part. */
async function declaredHolding(desk: Case, cylinderId: string, circuit: { refrigerant: string; customerId: string }) {
  const cylinder = await desk.tx.cylinder.findUnique({
    where: { tenantId_id: { tenantId: desk.tenantId, id: cylinderId } },
  });
  if (!cylinder) throw notFound();
  if (cylinder.kind === 'recovery') {
    const declared = cylinder.dedicatedTo ?? (await registeredGas(desk.tx, desk.tenantId, cylinderId));
    return {
      refrigerant: declared ?? circuit.refrigerant,
      owner: cylinder.ownerCustomerId ?? circuit.customerId,
      state: 'recovered' as GasState,
    };
  }
  return {
    refrigerant: cylinder.dedicatedTo ?? circuit.refrigerant,
    owner: cylinder.ownerCustomerId,
    state: (cylinder.gasState ?? 'new') as GasState,
  };
}

/** What an act of so many grams posts, and from where to where; none for an act that moved nothing. */
export async function postingsOf(
  desk: Case,
  act: { kind: string; circuitId: string; cylinderId: string; grams: number; at: string },
): Promise<Posting[]> {
  const { circuitId, cylinderId, grams, at: happenedAt } = act;
  if (grams === 0) return [];
  const circuit = await circuitGas(desk, circuitId);
  const [ofCircuit, ofCylinder] = [await circuitAccount(desk, circuitId), await cylinderAccount(desk, cylinderId)];
  if (act.kind === 'recovery') {
    const title = recovering(circuit.refrigerant, circuit.customerId);
    return [{ ...title, grams, from: ofCircuit, to: ofCylinder, happenedAt }];
  }
  const title = charging(await declaredHolding(desk, cylinderId, circuit), circuit.customerId);
  return [{ ...title, grams, from: ofCylinder, to: ofCircuit, happenedAt }];
}

/** Gas into a circuit from a cylinder, by gross weights. */
export async function recordCharge(desk: Case, received: Received<CommandBody<'record-charge'>>): Promise<void> {
  const { body, id: factId, happenedAt: at } = received;
  await lockedVisit(desk, body);
  const [to, from] = [await circuitAccount(desk, body.circuitId), await cylinderAccount(desk, body.cylinderId)];
  await assertInstrument(desk, body.scaleId);
  const weighed = {
    cylinderId: body.cylinderId,
    factId,
    before: body.before,
    after: body.after,
    scaleId: body.scaleId,
    at,
    tareGrams: await tareOf(desk, body.cylinderId, at),
  };
  const grams = await gramsBetween(desk, weighed, 'out');
  const circuit = await circuitGas(desk, body.circuitId);
  await askAfterAct(desk, {
    act: 'charge',
    cylinderId: body.cylinderId,
    refrigerant: circuit.refrigerant,
    circuitOwner: circuit.customerId,
    grams,
    at,
  });
  await recordFact(desk, received, {
    kind: 'charge',
    refs: [cylinderRef(body.cylinderId), ...instrumentRef('scale', body.scaleId)],
  });
  await keepWeighings(desk, weighed);
  const postings = await postingsOf(desk, { ...body, kind: 'charge', grams, at });
  await enterFact(desk, postings, { factId, visitId: body.visitId, measured: 'scale' });
  desk.accounts.add(from);
  desk.accounts.add(to);
}

/** Gas released by opening: only as entered, in the addition but not in the leak. */
export async function recordServiceLoss(
  desk: Case,
  received: Received<CommandBody<'record-service-loss'>>,
): Promise<void> {
  const { body, id: factId, happenedAt } = received;
  await lockedVisit(desk, { visitId: body.visitId, circuitId: body.circuitId, movesGas: true });
  const from = await circuitAccount(desk, body.circuitId);
  const { refrigerant, customerId } = await circuitGas(desk, body.circuitId);
  const to = (await outsideAccounts(desk.tx, desk.tenantId))['service-loss'];
  await recordFact(desk, received, { kind: 'service-loss' });
  const title = {
    refrigerant,
    fromOwner: customerId,
    fromState: 'in-use',
    toOwner: customerId,
    toState: 'in-use',
  } as const;
  const grams = bookedGrams(body.mass);
  if (grams > 0) {
    await enterFact(desk, [{ ...title, grams, from, to, happenedAt }], {
      factId,
      visitId: body.visitId,
      measured: 'estimate',
    });
  }
  desk.accounts.add(from);
}
