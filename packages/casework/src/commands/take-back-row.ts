import { Refusal } from '@ullage/contracts';
import type { CommandBody } from '@ullage/contracts';
import { reverse, standingOf } from '@ullage/gasbook';
import { circuitAccount, cylinderAccount } from '../gas/accounts.ts';
import { enterMovements, movementsOf } from '../gas/movement-rows.ts';
import { restsOnRow } from '../imports/rests.ts';
import { notFound, toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { lookAtPlaced } from '../visits/unfit.ts';
import { addFact } from './facts.ts';
import type { Reference } from './facts.ts';

/** An addition is taken back wherever its gas has gone on to. */
const LONG_AGO = '1900-01-01T00:00:00.000Z';

/**
 * Takes back what one row of an import made: its additions by further entries that name them, what it entered by being
 * withdrawn. A unit, site or customer goes with the last that stands in it; one in which others put something stays.
 */
export async function takeBackRow(desk: Case, { body }: Received<CommandBody<'take-back-row'>>): Promise<void> {
  const { tx, tenantId } = desk;
  const { importId, row: number } = body;
  const row = await tx.importRow.findUnique({
    where: { tenantId_importId_number: { tenantId, importId, number } },
    include: { run: { select: { state: true } } },
  });
  if (!row) throw notFound();
  if (row.run.state !== 'done' && row.run.state !== 'undoing')
    throw new Refusal('not-possible', 'Import: has not been carried out; there is nothing to take back.');
  if (row.state !== 'done' && row.state !== 'kept')
    throw new Refusal('not-possible', `Row ${number}: made nothing; there is nothing to take back.`);
  await lockGas(desk, row);
  const rest = await restsOnRow(tx, tenantId, { importId, number });
  if (rest !== undefined) throw new Refusal('not-possible', rest);
  await withdraw(desk, row);
  await tx.importRow.update({
    where: { tenantId_importId_number: { tenantId, importId, number } },
    data: { state: 'undone', faults: [] },
  });
}

/** The accounts of circuit and cylinder, where it names one. */
async function lockGas({ tx, tenantId }: Case, { onCircuitId, madeCylinderId }: Made): Promise<void> {
  if (onCircuitId === null && madeCylinderId === null) return;
  const circuitIds = onCircuitId === null ? [] : [onCircuitId];
  const cylinderIds = madeCylinderId === null ? [] : [madeCylinderId];
  await lock(tx, tenantId, { circuitIds, gas: { cylinderIds, since: LONG_AGO } });
}

/** What the row said was added: reversed in the books, and read no more by the law. */
async function takeBackAdditions(desk: Case, circuitId: string, commandId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const facts = await tx.fact.findMany({ where: { tenantId, circuitId, commandId, kind: 'past-addition' } });
  if (facts.length === 0) return;
  const account = await circuitAccount(desk, circuitId);
  const ids = new Set(facts.map(({ id }) => id));
  const movements = standingOf(await movementsOf(tx, tenantId, [account])).filter(
    ({ factId, derived }) => derived === undefined && factId !== null && ids.has(factId),
  );
  const stamp = () => ({ id: desk.world.newId(), recordedAt: desk.recordedAt });
  await enterMovements(
    desk,
    movements.map((movement) => reverse(movement, stamp())),
  );
  for (const fact of facts) await withdrawFact(desk, { corrects: fact.id, circuitId });
  desk.accounts.add(account);
}

const withdrawFact = (desk: Case, of: { corrects: string; circuitId?: string; refs?: readonly Reference[] }) =>
  addFact(desk, { id: desk.world.newId(), kind: 'withdrawal', at: { instant: desk.recordedAt }, body: {}, ...of });

/** Its registration is read no more, and what was in it by that goes out of the books again. */
async function takeBackCylinder(desk: Case, cylinderId: string, commandId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const account = await cylinderAccount(desk, cylinderId);
  const facts = await tx.fact.findMany({
    where: { tenantId, commandId, kind: 'cylinder-registered', factRefs: { some: { cylinderId } } },
    select: { id: true },
  });
  for (const fact of facts) await withdrawFact(desk, { corrects: fact.id, refs: [{ role: 'cylinder', cylinderId }] });
  await tx.cylinder.updateMany({
    where: { tenantId, id: cylinderId, withdrawnAt: null },
    data: { withdrawnAt: toDate(desk.recordedAt) },
  });
  await closeQuestions(desk, cylinderId);
  desk.accounts.add(account);
  desk.changed('cylinder', cylinderId, 'gone');
}

/** What was asked about it has no answer any more. */
async function closeQuestions(desk: Case, subjectId: string): Promise<void> {
  const { tx, tenantId } = desk;
  const open = { tenantId, kind: 'record', subjectId, closedAt: null };
  const rows = await tx.attention.findMany({ where: open, select: { id: true } });
  if (rows.length === 0) return;
  const data = { closedAt: toDate(desk.recordedAt), closedHow: 'no-longer-so', closedBy: desk.actor.userId };
  await tx.attention.updateMany({ where: open, data });
  for (const { id } of rows) desk.changed('attention', id);
}

/** The certificates of the row; the person with the last of them, where the import made them. */
async function takeBackPerson(desk: Case, row: Made): Promise<void> {
  const { tx, tenantId } = desk;
  const { personId, certificates } = row.body as CommandBody<'register-person'>;
  const data = { withdrawnAt: toDate(desk.recordedAt) };
  const live = { tenantId, withdrawnAt: null };
  await tx.certificate.updateMany({ where: { ...live, id: { in: certificates.map(({ id }) => id) } }, data });
  const held = await tx.certificate.count({ where: { ...live, personId } });
  const goes = row.madePersonId !== null && held === 0;
  // Nobody who is invited under the address becomes a person who was taken back.
  if (goes)
    await tx.person.updateMany({ where: { ...live, id: personId }, data: { ...data, active: false, email: null } });
  desk.changed('person', personId, goes ? 'gone' : 'changed');
  await lookAtPlaced(desk, personId);
}

interface Made {
  readonly commandKind: string | null;
  readonly commandId: string;
  readonly body: unknown;
  readonly onCircuitId: string | null;
  readonly madeCylinderId: string | null;
  readonly madePersonId: string | null;
  readonly madeCircuitId: string | null;
  readonly madeUnitId: string | null;
  readonly madeSiteId: string | null;
  readonly madeCustomerId: string | null;
}

async function withdraw(desk: Case, made: Made): Promise<void> {
  const { commandKind, commandId, onCircuitId, madeCylinderId } = made;
  if (onCircuitId !== null) await takeBackAdditions(desk, onCircuitId, commandId);
  if (madeCylinderId !== null) await takeBackCylinder(desk, madeCylinderId, commandId);
  if (commandKind === 'register-person') await takeBackPerson(desk, made);
  await withdrawPlaces(desk, made);
}

/** From the inside out, each only when nothing stands in it any more. */
async function withdrawPlaces(desk: Case, made: Made): Promise<void> {
  const { tx, tenantId } = desk;
  const live = { tenantId, withdrawnAt: null };
  const data = { withdrawnAt: toDate(desk.recordedAt) };
  const { madeCircuitId, madeUnitId, madeSiteId, madeCustomerId } = made;
  // Its letter and a unit's tag are free again: the same file may be imported once more, put right. In the books they are told apart.
  if (madeCircuitId !== null) {
    const where = { tenantId_id: { tenantId, id: madeCircuitId } };
    const circuit = await tx.circuit.findUnique({ where, select: { letter: true, withdrawnAt: true } });
    if (circuit?.withdrawnAt === null)
      await tx.circuit.update({ where, data: { ...data, letter: takenBack(circuit.letter, madeCircuitId) } });
    desk.circuits.add(madeCircuitId);
    desk.changed('circuit', madeCircuitId, 'gone');
  }
  if (madeUnitId !== null && (await tx.circuit.count({ where: { ...live, unitId: madeUnitId } })) === 0) {
    const where = { tenantId_id: { tenantId, id: madeUnitId } };
    const unit = await tx.unit.findUnique({ where, select: { tag: true, withdrawnAt: true } });
    if (unit?.withdrawnAt === null)
      await tx.unit.update({ where, data: { ...data, tag: takenBack(unit.tag, madeUnitId) } });
    desk.changed('unit', madeUnitId, 'gone');
  }
  if (madeSiteId !== null && (await tx.unit.count({ where: { ...live, siteId: madeSiteId } })) === 0) {
    await tx.site.updateMany({ where: { ...live, id: madeSiteId }, data });
    desk.changed('site', madeSiteId, 'gone');
  }
  if (madeCustomerId !== null && (await isEmpty(desk, madeCustomerId))) {
    await tx.customer.updateMany({ where: { ...live, id: madeCustomerId }, data });
    desk.changed('customer', madeCustomerId, 'gone');
  }
}

/** Readable, and like no other that was taken back. */
const takenBack = (name: string, id: string): string => `${name} (taken back, ${id.slice(-4)})`;

async function isEmpty({ tx, tenantId }: Case, customerId: string): Promise<boolean> {
  const sites = await tx.site.count({ where: { tenantId, customerId, withdrawnAt: null } });
  const cylinders = await tx.cylinder.count({ where: { tenantId, ownerCustomerId: customerId, withdrawnAt: null } });
  return sites === 0 && cylinders === 0;
}
