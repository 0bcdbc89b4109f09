/** What the manager decides: prices of gas, invoices, circuits to be replaced. Wrong ones are withdrawn, never rewritten. */
import type { CommandBody } from '@ullage/contracts';
import { Refusal } from '@ullage/contracts';
import { txQuery } from '@ullage/database';
import { dayToDate, notFound, refuseField, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { GAS_TO_BILL } from '../views/gas-used.sql.ts';

export async function setPrice(desk: Case, { body }: Received<CommandBody<'set-price'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { currency } = desk.tenant;
  const same = { tenantId, refrigerant: body.refrigerant, fromOn: dayToDate(body.fromOn), currency, withdrawnAt: null };
  if ((await tx.gasPrice.count({ where: same })) > 0)
    throw refuseField('fromOn', 'Valid from: a price stands from that day; withdraw it first, or choose another day.');
  await tx.gasPrice.create({
    data: {
      ...same,
      id: body.priceId,
      unit: body.unit,
      purchase: body.purchase ?? null,
      sale: body.sale ?? null,
      setBy: desk.person.id,
      setAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('price', body.priceId, 'made');
}

export async function withdrawPrice(desk: Case, { body }: Received<CommandBody<'withdraw-price'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const withdrawn = await tx.gasPrice.updateMany({
    where: { tenantId, id: body.priceId, withdrawnAt: null },
    data: { withdrawnBy: desk.person.id, withdrawnAt: toDate(desk.recordedAt) },
  });
  if (withdrawn.count === 0) {
    const known = await tx.gasPrice.count({ where: { tenantId, id: body.priceId } });
    throw known === 0 ? notFound() : refuseField('priceId', 'Price: somebody has withdrawn it already.');
  }
  desk.changed('price', body.priceId);
}

/** The visit is locked, as it is by whatever moves gas at it: what the biller saw is then what is billed. */
export async function billGas(desk: Case, { body }: Received<CommandBody<'bill-gas'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { billId, visitId, refrigerant, grams, invoice } = body;
  await lock(tx, tenantId, { visitId });
  const visit = await tx.visit.findUnique({ where: { tenantId_id: { tenantId, id: visitId } }, select: { id: true } });
  if (!visit) throw notFound();
  const standing = await tx.gasBill.findFirst({ where: { tenantId, visitId, refrigerant, undoneAt: null } });
  if (standing)
    throw refuseField('visitId', `Visit: its ${refrigerant} stands on invoice ${standing.invoice} already.`);
  const [used] = await txQuery(tx, GAS_TO_BILL, [tenantId, visitId, refrigerant]);
  if (!used || used.grams <= 0) throw refuseField('refrigerant', `Gas: no ${refrigerant} of this visit is to bill.`);
  if (used.grams !== grams)
    throw new Refusal('stale', `Gas: it is ${used.grams.toLocaleString('en-US')} g now; look at it again.`);
  await tx.gasBill.create({
    data: {
      ...{ tenantId, id: billId, visitId, refrigerant, grams, invoice },
      billedBy: desk.person.id,
      billedAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('visit', visitId);
}

export async function undoBill(desk: Case, { body }: Received<CommandBody<'undo-bill'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const bill = await tx.gasBill.findUnique({ where: { tenantId_id: { tenantId, id: body.billId } } });
  if (!bill) throw notFound();
  const undone = await tx.gasBill.updateMany({
    where: { tenantId, id: body.billId, undoneAt: null },
    data: { undoneBy: desk.person.id, undoneAt: toDate(desk.recordedAt) },
  });
  if (undone.count === 0) throw refuseField('billId', 'Invoice: somebody has taken the mark back already.');
  desk.changed('visit', bill.visitId);
}

const PLANNED_ANEW = 'Planned anew';
/** Planned again, the newer plan stands: another date or reason is one act, and the older one is kept as withdrawn. */
export async function planReplacement(desk: Case, { body }: Received<CommandBody<'plan-replacement'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { planId, circuitId, reason, byOn } = body;
  await lock(tx, tenantId, { circuitIds: [circuitId] });
  const circuit = await tx.circuit.findUnique({ where: { tenantId_id: { tenantId, id: circuitId } } });
  if (!circuit || circuit.withdrawnAt) throw notFound();
  await tx.replacementPlan.updateMany({
    where: { tenantId, circuitId, withdrawnAt: null },
    data: { withdrawnWhy: PLANNED_ANEW, withdrawnBy: desk.person.id, withdrawnAt: toDate(desk.recordedAt) },
  });
  await tx.replacementPlan.create({
    data: {
      ...{ tenantId, id: planId, circuitId, reason },
      byOn: byOn === undefined ? null : dayToDate(byOn),
      plannedBy: desk.person.id,
      plannedAt: toDate(desk.recordedAt),
    },
  });
  desk.changed('circuit', circuitId);
}

export async function withdrawReplacement(
  desk: Case,
  { body }: Received<CommandBody<'withdraw-replacement'>>,
): Promise<void> {
  const { tx, tenantId } = desk;
  const plan = await tx.replacementPlan.findUnique({ where: { tenantId_id: { tenantId, id: body.planId } } });
  if (!plan) throw notFound();
  const withdrawn = await tx.replacementPlan.updateMany({
    where: { tenantId, id: body.planId, withdrawnAt: null },
    data: { withdrawnWhy: body.reason, withdrawnBy: desk.person.id, withdrawnAt: toDate(desk.recordedAt) },
  });
  if (withdrawn.count === 0) throw refuseField('planId', 'Plan: somebody has withdrawn it already.');
  desk.changed('circuit', plan.circuitId);
}
