/** The one action that each thing asks for which a recall reached. */
import type { CommandBody } from '@ullage/contracts';
import { addFact } from '../commands/facts.ts';
import { setAside } from '../commands/set-aside.ts';
import { rethinkRecoveries } from '../gas/rethink.ts';
import { toDate } from '../pipeline/case.ts';
import type { Case, Received } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import type { RecallItem } from './items.ts';
import { subjectOf } from './recall-row.ts';
import type { RecallRow } from './recall-row.ts';

interface On {
  readonly row: RecallRow;
  readonly item: RecallItem;
}
type Settle = Received<CommandBody<'settle-recall-item'>>;

/** Does it; gives the visit that is to be made for it, where there is one. */
export async function act(desk: Case, received: Settle, { row, item }: On): Promise<string | null> {
  const because = received.body.why ?? row.why;
  switch (item.kind) {
    case 'cylinder':
      await setAside(desk, { factId: received.id, at: received.happenedAt, cylinderId: item.id, why: because });
      return null;
    case 'circuit':
      await lock(desk.tx, desk.tenantId, { circuitIds: [item.id] });
      return visitFor(desk, { row, item });
    case 'look':
      await withdraw(desk, received, item);
      return visitFor(desk, { row, item });
    case 'test': {
      const discharged = await desk.tx.dutyEvidence.count({ where: { tenantId: desk.tenantId, factId: item.id } });
      await withdraw(desk, received, item);
      // The law proposes the visit to a duty that is open again; a test that nobody had to make asks for one of its own.
      return discharged > 0 ? null : visitFor(desk, { row, item });
    }
    case 'weighing':
      return null;
  }
}

/**
 * What was seen with an instrument that failed says nothing any more. The fact stays; one that names it takes its weight,
 * and what the law asks of the circuit is worked out without it.
 */
async function withdraw(desk: Case, { id, happenedAt, body }: Settle, item: RecallItem): Promise<void> {
  const { circuitId, visitId } = item;
  await lock(desk.tx, desk.tenantId, {
    ...(visitId === null ? {} : { visitId }),
    circuitIds: circuitId === null ? [] : [circuitId],
  });
  await addFact(desk, {
    id,
    kind: 'set-aside',
    visitId: visitId ?? undefined,
    circuitId: circuitId ?? undefined,
    at: { instant: happenedAt },
    body: { recallId: body.recallId, what: item.title, why: body.why },
    corrects: item.id,
  });
  // A leak that is not proven tight may have let air in at a recovery since.
  if (item.kind === 'test' && circuitId !== null && visitId !== null)
    await rethinkRecoveries(desk, { circuitId, visitId, since: item.at });
}

/** As long as a call takes until somebody has seen it (common practice). */
const MINUTES = 120;
/** One visit to a circuit for all that a recall asks there, as long as nobody has been. */
async function visitFor(desk: Case, { row, item }: On): Promise<string | null> {
  const { tx, tenantId } = desk;
  const { circuitId } = item;
  if (circuitId === null) return null;
  const proposed = row.items.flatMap(({ visitId }) => visitId ?? []);
  const where = { tenantId, id: { in: proposed }, state: { in: ['proposed', 'placed'] } };
  const known = await tx.visit.findFirst({ where: { ...where, visitCircuits: { some: { circuitId } } } });
  if (known) return known.id;
  const { unit } = await tx.circuit.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: circuitId } },
    select: { unit: { select: { siteId: true } } },
  });
  const id = desk.world.newId();
  await tx.visit.create({
    data: {
      ...{ tenantId, id, siteId: unit.siteId, purpose: 'call', state: 'proposed', version: 1 },
      symptom: symptomOf({ row, item }),
      plannedMinutes: MINUTES,
      createdAt: toDate(desk.recordedAt),
    },
  });
  await tx.visitCircuit.create({ data: { tenantId, visitId: id, circuitId } });
  desk.changed('visit', id, 'made');
  desk.changed('circuit', circuitId);
  return id;
}

function symptomOf({ row, item }: On): string {
  const { title } = subjectOf(row);
  if (row.kind === 'instrument' && item.kind !== 'circuit')
    return `Recall: look again with a checked detector. ${title} failed its check.`;
  if (row.kind === 'instrument') return `Recall: test again. ${title} failed its check.`;
  return `Recall: gas from ${title} came to this circuit. ${row.why}`;
}
