import { DutiesChanged } from '@ullage/contracts';
import type { CommandName } from '@ullage/contracts';
import { deriveBooks } from '../gas/derive.ts';
import { recomputeCircuits } from '../law/recompute.ts';
import { toDate } from './case.ts';
import type { Case, Work } from './case.ts';

const sorted = (ids: Iterable<string>): string[] => [...ids].sort();

/**
 * Ends a case: derived postings, then the law, then the answer, audit trail and outbox, and last of all the feed, whose
 * counter is locked until the commit. Everything a command causes is thereby in its own transaction.
 */
export async function settle(desk: Case, kind: CommandName, answer: () => Promise<void>): Promise<void> {
  await deriveBooks(desk);
  const circuitIds = sorted(desk.circuits);
  await recomputeCircuits(desk, circuitIds);
  await announceDuties(desk, circuitIds);
  await writeConcerns(desk);
  await answer();
  const { userId, address = null, key, takenOver } = desk.actor;
  const more = { ...(key === undefined ? {} : { key: { ...key } }), ...(takenOver ? { takenOver: true } : {}) };
  await writeAudit(desk, { action: kind, userId, commandId: desk.commandId, address }, more);
  await writeFeed(desk, desk.commandId);
}

/**
 * One open item per concern and thing: a cylinder that is asked about twice is still one cylinder to look at. What an
 * earlier act was asked about once, by whatever was told then, is not asked again.
 */
async function writeConcerns(desk: Case): Promise<void> {
  const { tx, tenantId } = desk;
  for (const { code, text, subject, of: earlier } of desk.concerns) {
    const same = { tenantId, kind: 'record', reason: code, subjectId: subject.id };
    const known = [{ closedAt: null }, ...(earlier === undefined ? [] : [{ commandId: earlier }])];
    if ((await tx.attention.count({ where: { ...same, OR: known } })) > 0) continue;
    const id = desk.world.newId();
    const problem = { title: 'Booked; somebody should look', detail: text };
    const openedAt = toDate(desk.recordedAt);
    const commandId = earlier ?? desk.commandId;
    await tx.attention.create({ data: { ...same, id, commandId, problem, subjectKind: subject.kind, openedAt } });
    desk.changed('attention', id, 'made');
  }
}

/** Leaves word for the queue, in this transaction, that the circuits' reminders have to be put in order. */
export async function announceDuties(work: Work, circuitIds: readonly string[]): Promise<void> {
  if (circuitIds.length === 0) return;
  const { tenantId, recordedAt } = work;
  const rest = { topic: DutiesChanged.topic, createdAt: toDate(recordedAt), tries: 0 };
  const rowOf = (circuitId: string) => ({ tenantId, id: work.world.newId(), body: { circuitId }, ...rest });
  await work.tx.outbox.createMany({ data: circuitIds.map(rowOf) });
}

/** Who made the changes and by what; nobody and no command where time alone did. */
export interface Doer {
  readonly action: string;
  readonly userId: string | null;
  readonly commandId: string | null;
  readonly address: string | null;
}
/** What else is said of each change. */
export interface Said {
  /** The key, where a program acted beside the person. */
  readonly key?: { readonly id: string; readonly name: string };
  /** It was done at the contractor's former place, and told again from its file. */
  readonly takenOver?: boolean;
  /** Work that only the time caused: of which circuit, and from what its ids follow. */
  readonly circuit?: string;
  readonly cause?: string;
}
export async function writeAudit(work: Work, doer: Doer, said: Said = {}): Promise<void> {
  await work.tx.audit.createMany({
    data: work.changes.map((change) => ({
      tenantId: work.tenantId,
      id: work.world.newId(),
      at: toDate(work.recordedAt),
      ...doer,
      recordKind: change.kind,
      recordId: change.id,
      detail: { op: change.op, ...said },
    })),
  });
}

/** The counter is taken and the rows are numbered in one statement: numbers are in commit order, without gaps. */
export async function writeFeed(desk: Work, causeId: string | null = null): Promise<void> {
  if (desk.changes.length === 0) return;
  const kinds = desk.changes.map((change) => change.kind);
  const ids = desk.changes.map((change) => change.id);
  const ops = desk.changes.map((change) => change.op);
  await desk.tx.$executeRaw`
    WITH counter AS (
      UPDATE feed_counter SET number = number + ${desk.changes.length}
      WHERE tenant_id = ${desk.tenantId}::uuid RETURNING epoch, number
    )
    INSERT INTO feed (tenant_id, epoch, number, kind, record_id, op, at, cause_id)
    SELECT ${desk.tenantId}::uuid, counter.epoch, counter.number - ${desk.changes.length} + change.place, change.kind,
      change.record_id, change.op, ${toDate(desk.recordedAt)}, ${causeId}::uuid
    FROM counter, unnest(${kinds}::text[], ${ids}::uuid[], ${ops}::text[]) WITH ORDINALITY AS change (kind, record_id, op, place)`;
}
