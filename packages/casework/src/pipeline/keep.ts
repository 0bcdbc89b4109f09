/** What cannot be applied is kept whole for a person, with what it would take; it blocks nothing that comes after it. */
import type { CommandAnswer, Refusal } from '@ullage/contracts';
import type { Prisma, Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import type { Actor, World } from '../office.ts';
import { toDate } from './case.ts';
import { readHead } from './envelope.ts';
import { storable } from './envelope-text.ts';
import { hashOf } from './hash.ts';
import { answerAgain, needsAttention, problemOf } from './problem.ts';
import { withRetry } from './retry.ts';

/** The reason of an item that asks after a command which has waited long. */
export const STILL_WAITING = '/problems/still-waiting';

/** A device's command as it came. */
export interface Sent {
  readonly received: unknown;
  readonly sentAt: string;
}
/** Keeps a device's command that was refused. One without a readable head stays with the device, which is told why. */
export async function keepSent(
  world: World,
  actor: Actor,
  { sent, refusal }: { sent: Sent; refusal: Refusal },
): Promise<CommandAnswer> {
  const problem = problemOf(refusal);
  const head = headOf(sent.received);
  if (!head) return needsAttention('', problem);
  const { tenantId } = actor;
  let answer = needsAttention(head.id, problem);
  const hash = hashOf(sent.received);
  const row = {
    tenantId,
    id: head.id,
    kind: head.schema,
    deviceId: head.device,
    deviceSeq: head.deviceSeq,
    hash,
    envelope: storable(sent.received) as Prisma.InputJsonValue,
    userId: actor.userId,
    happenedAt: toDate(world.calendar.instant(head.happenedAt)),
    sentAt: toDate(sent.sentAt),
    receivedAt: toDate(world.now()),
    state: 'attention',
    answer: answer as unknown as Prisma.InputJsonValue,
  };
  await keep(world, tenantId, async (tx) => {
    await tx.command.createMany({ data: row, skipDuplicates: true });
    // Where the device's number is another command's, this one is kept without it; the envelope still bears it.
    await tx.command.createMany({ data: { ...row, deviceSeq: null }, skipDuplicates: true });
    const stored = await tx.command.findUnique({ where: { tenantId_id: { tenantId, id: head.id } } });
    // Other content under an id that is taken: the first stands, and the device keeps what it sent.
    if (stored?.hash !== hash) return undefined;
    // Sent again by a clock that is wrong now, it is still the command that was answered then.
    if (stored.state !== 'waiting') answer = answerAgain(stored.answer as unknown as CommandAnswer);
    return answer;
  });
  return answer;
}

/** Keeps a command that is stored already and was refused when its turn came. */
export async function keepStored(
  world: World,
  tenantId: string,
  { id, refusal }: { id: string; refusal: Refusal },
): Promise<void> {
  await keep(world, tenantId, () => Promise.resolve(needsAttention(id, problemOf(refusal))));
}

async function keep(
  world: World,
  tenantId: string,
  store: (tx: Tx) => Promise<CommandAnswer | undefined>,
): Promise<void> {
  await withRetry(() =>
    world.database.inTenant(tenantId, async (tx) => {
      const answer = await store(tx);
      if (answer) await openItem(tx, { world, tenantId, answer });
    }),
  );
  await world.database.notify('ullage_feed', tenantId);
}

/** One open item per command, however often it is sent or tried. What has been applied in the meantime needs nobody. */
async function openItem(tx: Tx, given: { world: World; tenantId: string; answer: CommandAnswer }): Promise<void> {
  const { tenantId } = given;
  const { id: commandId, problem } = given.answer;
  const state = { state: 'attention', answer: given.answer as unknown as Prisma.InputJsonValue };
  const refused = await tx.command.updateMany({ where: { tenantId, id: commandId, state: 'waiting' }, data: state });
  // It waits no more: what asked after it says less than the refusal.
  if (refused.count === 1) await closeLongWait(tx, { tenantId, commandId, at: given.world.now() });
  const stands = await tx.command.count({ where: { tenantId, id: commandId, state: 'attention' } });
  // What somebody has decided against is not asked again because the device says it again.
  const asked = refused.count === 1 ? { closedAt: null } : {};
  const known = await tx.attention.count({ where: { tenantId, commandId, ...asked } });
  if (stands === 0 || known > 0 || !problem) return;
  await tx.attention.create({
    data: {
      tenantId,
      id: given.world.newId(),
      kind: 'command',
      commandId,
      reason: problem.type,
      problem: problem as unknown as Prisma.InputJsonValue,
      openedAt: toDate(given.world.now()),
    },
  });
}

/** Closes the item that asks after a command which has waited long. Gives the items closed. */
export async function closeLongWait(
  tx: Tx,
  { tenantId, commandId, at }: { tenantId: string; commandId: string; at: Instant },
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    UPDATE attention SET closed_at = ${toDate(at)}, closed_how = 'done'
    WHERE tenant_id = ${tenantId}::uuid AND command_id = ${commandId}::uuid AND reason = ${STILL_WAITING}
    AND closed_at IS NULL RETURNING id`;
  return rows.map(({ id }) => id);
}

function headOf(received: unknown): ReturnType<typeof readHead> | undefined {
  try {
    return readHead(received);
  } catch {
    return undefined;
  }
}
