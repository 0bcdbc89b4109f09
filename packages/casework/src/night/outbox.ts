import { DutiesChanged, ImportWorks } from '@ullage/contracts';
import type { Instant } from '@ullage/units';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import { hold, settleDeadJob, wasLeftOut } from './dead-jobs.ts';
import { nightWork } from './night-work.ts';

/** What waits in the outbox, read by its topic's shape. */
export type Message =
  | { readonly topic: typeof DutiesChanged.topic; readonly circuitId: string }
  | { readonly topic: typeof ImportWorks.topic; readonly importId: string }
  | { readonly topic: 'unreadable' };
export interface Failure {
  readonly id: string;
  /** For whoever looks into the table; a person on the board gets a sentence instead. */
  readonly why: string;
  /** It can never be sent: trying again would change nothing. */
  readonly forGood: boolean;
}

/** A person sees a message that failed so often; it goes on being tried. */
const TRIES_UNTIL_SHOWN = 8;
const WHY_LENGTH = 500;

export function openMessage(world: World, tenantId: string, id: string): Promise<Message | undefined> {
  return world.database.inTenant(tenantId, async (tx) => {
    const row = await tx.outbox.findUnique({ where: { tenantId_id: { tenantId, id } } });
    if (!row || row.sentAt !== null) return undefined;
    return read(row);
  });
}

function read({ topic, body }: { topic: string; body: unknown }): Message {
  const duties = DutiesChanged.body.safeParse(body);
  if (topic === DutiesChanged.topic && duties.success) return { topic, circuitId: duties.data.circuitId };
  const works = ImportWorks.body.safeParse(body);
  if (topic === ImportWorks.topic && works.success) return { topic, importId: works.data.importId };
  return { topic: 'unreadable' };
}

export function markSent(world: World, tenantId: string, id: string): Promise<boolean> {
  return nightWork(world, { tenantId, action: 'outbox-sent' }, async (desk) => {
    const marked = await desk.tx.outbox.updateMany({
      where: { tenantId, id, sentAt: null },
      data: { sentAt: toDate(desk.recordedAt), lastError: null },
    });
    if (marked.count === 1) await settleDeadJob(desk, id);
    return marked.count === 1;
  });
}

export function fail(world: World, tenantId: string, failure: Failure): Promise<void> {
  const { id, forGood } = failure;
  return nightWork(world, { tenantId, action: 'outbox-failed' }, async (desk) => {
    const { tx } = desk;
    const lastError = failure.why.slice(0, WHY_LENGTH);
    const where = { tenantId, id, sentAt: null };
    const counted = await tx.outbox.updateMany({ where, data: { tries: { increment: 1 }, lastError } });
    if (counted.count === 0) return;
    const row = await tx.outbox.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id } } });
    if (!forGood && row.tries < TRIES_UNTIL_SHOWN) return;
    // Somebody looked at it and wants no more of it.
    if (await wasLeftOut(desk, id)) {
      await tx.outbox.updateMany({ where, data: { sentAt: toDate(desk.recordedAt) } });
      return;
    }
    const circuit = DutiesChanged.body.safeParse(row.body);
    await hold(desk, {
      jobId: id,
      subject: circuit.success ? { kind: 'circuit', id: circuit.data.circuitId } : null,
      text: 'Reminders of a circuit could not be set. Try again, or leave it out and watch its dates.',
    });
  });
}

/** Little enough to hold up nobody, and more than a contractor leaves between two sweeps. */
const PRUNED_AT_ONCE = 500;

export function prune(world: World, tenantId: string, until: Instant): Promise<number> {
  // The rows are chosen once, in the order of the index on what was sent, before any goes.
  return world.database.inTenant(
    tenantId,
    (tx) => tx.$executeRaw`
      DELETE FROM outbox WHERE tenant_id = ${tenantId}::uuid AND id = ANY (ARRAY(
        SELECT id FROM outbox WHERE tenant_id = ${tenantId}::uuid AND sent_at <= ${toDate(until)}
        ORDER BY sent_at LIMIT ${PRUNED_AT_ONCE} FOR UPDATE SKIP LOCKED))`,
  );
}
