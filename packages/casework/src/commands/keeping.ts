/** What every report of the keeper's begins with: locks, places, the scale. */
import type { Mass } from '@ullage/contracts';
import { bookedGrams } from '@ullage/units';
import { cylinderAccount } from '../gas/accounts.ts';
import { notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { tareOf } from './register.ts';
import { assertHolds } from './weigh.ts';

/** Two readings of one weight differ by so much by themselves: two sigma of a field scale (common practice). */
export const SCALE_NOISE_GRAMS = 28;

/** Locks the accounts of some cylinders, each named once. @throws Refusal not-found for an unknown one */
export async function lockEach(desk: Case, ids: readonly string[], since: string): Promise<string[]> {
  if (new Set(ids).size < ids.length)
    throw refuseField('cylinders', 'Cylinders: one stands there twice; name each once.');
  await lock(desk.tx, desk.tenantId, { gas: { cylinderIds: ids, since } });
  const accounts = [];
  for (const id of ids) accounts.push(await cylinderAccount(desk, id));
  return accounts;
}

export async function locationOf(desk: Case, id: string): Promise<{ kind: string; name: string }> {
  const row = await desk.tx.location.findUnique({ where: { tenantId_id: { tenantId: desk.tenantId, id } } });
  if (!row) throw notFound();
  return row;
}
export async function assertPlaces(desk: Case, ids: readonly (string | null)[]): Promise<void> {
  for (const id of new Set(ids)) if (id !== null) await locationOf(desk, id);
}

export interface OnScale {
  readonly cylinderId: string;
  readonly gross: Mass;
  readonly field: string;
}
/** Reads a cylinder on the scale. @throws Refusal for a weight that it could not show */
export async function tareUnder(desk: Case, { cylinderId, gross, field }: OnScale, at: string): Promise<number> {
  const tareGrams = await tareOf(desk, cylinderId, at);
  if (bookedGrams(gross) + SCALE_NOISE_GRAMS < tareGrams)
    throw refuseField(field, 'Gross weight: below the tare; check the figure, or put the tare right.');
  await assertHolds(desk, { cylinderId, tareGrams }, { gross, role: 'weight', field });
  return tareGrams;
}

/** It is no open item any more. */
export async function closeLost(desk: Case, cylinderId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const open = { tenantId, kind: 'record', reason: 'cylinder-lost', subjectId: cylinderId, closedAt: null };
  const rows = await tx.attention.findMany({ where: open, select: { id: true } });
  const data = { closedAt: toDate(desk.recordedAt), closedHow: 'no-longer-so', closedBy: desk.actor.userId };
  if (rows.length > 0) await tx.attention.updateMany({ where: open, data });
  for (const { id } of rows) desk.changed('attention', id);
}
