/** The two ways in: a desk's single command, and a device's batch. */
import { faultsOf, plainWords, Push, Refusal } from '@ullage/contracts';
import type { CommandAnswer, CommandName, Problem, PushAnswer } from '@ullage/contracts';
import type { Prisma } from '@ullage/database';
import * as z from 'zod';
import type { Actor, DeskCommand, World } from '../office.ts';
import { applyOnce } from './apply.ts';
import { toDate } from './case.ts';
import { readDesk, readDevice, readHead } from './envelope.ts';
import type { Incoming } from './envelope.ts';
import { restored, storable } from './envelope-text.ts';
import { hashOf } from './hash.ts';
import { problemOf } from './problem.ts';
import { withRetry } from './retry.ts';

/** Applies a desk command, then whatever had waited for it. @throws Refusal */
export async function applyDesk(world: World, actor: Actor, command: DeskCommand): Promise<CommandAnswer> {
  const incoming = readDesk(world, actor, command);
  const answer = await applyOnce(world, actor, incoming);
  if (answer.outcome !== 'applied') return answer;
  await applyWaiting(world, actor, incoming.id);
  if (command.kind === 'settle-attention')
    await tryAgain(world, actor, (incoming.body as { attentionId: string }).attentionId);
  return answer;
}

/** Applies a device's batch in the device's own order. One that cannot be applied is kept whole; the rest goes on. */
export async function applyPush(world: World, actor: Actor, body: unknown): Promise<PushAnswer> {
  const push = Push.safeParse(body, { error: plainWords });
  if (!push.success) throw new Refusal('not-valid', 'The batch is not in order.', { errors: faultsOf(push.error) });
  const sentAt = world.calendar.instant(push.data.sentAt);
  const answers: CommandAnswer[] = [];
  for (const received of inDeviceOrder(push.data.commands))
    answers.push(await applyOne(world, actor, { received, sentAt }));
  const counter = await world.database.inTenant(actor.tenantId, (tx) =>
    tx.feedCounter.findUniqueOrThrow({ where: { tenantId: actor.tenantId } }),
  );
  return { answers, epoch: counter.epoch, number: Number(counter.number) };
}

const Sequenced = z.object({ deviceSeq: z.number() });
const seqOf = (received: unknown): number => Sequenced.safeParse(received).data?.deviceSeq ?? Number.MAX_SAFE_INTEGER;
const inDeviceOrder = (commands: readonly unknown[]): unknown[] => [...commands].sort((a, b) => seqOf(a) - seqOf(b));

async function applyOne(
  world: World,
  actor: Actor,
  given: { received: unknown; sentAt: string },
): Promise<CommandAnswer> {
  try {
    const incoming = readDevice(world, actor, given);
    const answer = await applyOnce(world, actor, incoming);
    if (answer.outcome === 'applied') await applyWaiting(world, actor, incoming.id);
    return answer;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return keepForAPerson(world, actor, { ...given, refusal: error });
  }
}

/** A refused command is kept as it came, with what it would take; the device forgets nothing and is blocked by nothing. */
async function keepForAPerson(
  world: World,
  actor: Actor,
  given: { received: unknown; sentAt: string; refusal: Refusal },
): Promise<CommandAnswer> {
  const problem = problemOf(given.refusal);
  const head = headOf(given.received);
  if (!head) return { id: '', outcome: 'needs-attention', records: [], asks: [], problem };
  const answer: CommandAnswer = { id: head.id, outcome: 'needs-attention', records: [], asks: [], problem };
  await withRetry(() => writeAttention(world, actor, { ...given, head, answer, problem }));
  await world.database.notify('ullage_feed', actor.tenantId);
  return answer;
}

function headOf(received: unknown): ReturnType<typeof readHead> | undefined {
  try {
    return readHead(received);
  } catch {
    return undefined;
  }
}

interface Kept {
  readonly received: unknown;
  readonly sentAt: string;
  readonly head: ReturnType<typeof readHead>;
  readonly answer: CommandAnswer;
  readonly problem: Problem;
}
async function writeAttention(world: World, actor: Actor, kept: Kept): Promise<void> {
  const { tenantId } = actor;
  const now = toDate(world.now());
  const state = { state: 'attention', answer: kept.answer as unknown as Prisma.InputJsonValue };
  const hash = hashOf(kept.received);
  const row = {
    tenantId,
    id: kept.head.id,
    kind: kept.head.schema,
    deviceId: kept.head.device,
    deviceSeq: kept.head.deviceSeq,
    hash,
    envelope: storable(kept.received) as Prisma.InputJsonValue,
    userId: actor.userId,
    happenedAt: toDate(world.calendar.instant(kept.head.happenedAt)),
    sentAt: toDate(kept.sentAt),
    receivedAt: now,
    ...state,
  };
  await world.database.inTenant(tenantId, async (tx) => {
    await tx.command.createMany({ data: row, skipDuplicates: true });
    // Where the device's number is another command's, this one is kept without it; the envelope still bears it.
    await tx.command.createMany({ data: { ...row, deviceSeq: null }, skipDuplicates: true });
    const where = { tenantId, id: kept.head.id };
    // Other content under an id that is taken: the first stands, and the device keeps what it sent.
    if ((await tx.command.count({ where: { ...where, hash } })) === 0) return;
    await tx.command.updateMany({ where: { ...where, state: 'waiting' }, data: state });
    const known = await tx.attention.count({ where: { tenantId, commandId: kept.head.id, closedAt: null } });
    if (known > 0) return;
    await tx.attention.create({
      data: {
        tenantId,
        id: world.newId(),
        kind: 'command',
        commandId: kept.head.id,
        reason: kept.problem.type,
        problem: kept.problem as unknown as Prisma.InputJsonValue,
        openedAt: now,
      },
    });
  });
}

/** Commands that waited for this one are tried now; what they in turn held up follows. */
async function applyWaiting(world: World, actor: Actor, arrivedId: string): Promise<void> {
  const { tenantId } = actor;
  const waiting = await world.database.inTenant(tenantId, (tx) =>
    tx.commandWait.findMany({
      where: { tenantId, waitsFor: arrivedId },
      include: { command: true },
      orderBy: { commandId: 'asc' },
    }),
  );
  for (const { command } of waiting) await applyStored(world, actor, command);
}

async function tryAgain(world: World, actor: Actor, attentionId: string): Promise<void> {
  const { tenantId } = actor;
  const item = await world.database.inTenant(tenantId, (tx) =>
    tx.attention.findUnique({ where: { tenantId_id: { tenantId, id: attentionId } }, include: { command: true } }),
  );
  if (item?.command?.state === 'waiting') await applyStored(world, actor, item.command);
}

interface StoredCommand {
  readonly id: string;
  readonly kind: string;
  readonly envelope: unknown;
  readonly deviceId: string | null;
  readonly sentAt: Date | null;
  readonly receivedAt: Date;
  readonly userId: string;
}
/** Runs a kept command as the one who sent it. */
async function applyStored(world: World, actor: Actor, command: StoredCommand): Promise<void> {
  const sender: Actor = { ...actor, userId: command.userId };
  if (command.deviceId !== null) {
    await applyOne(world, sender, {
      received: restored(command.envelope),
      sentAt: (command.sentAt ?? command.receivedAt).toISOString(),
    });
    return;
  }
  const { kind, ...received } = command.envelope as { kind: CommandName };
  const incoming: Incoming = readDesk(world, sender, { id: command.id, kind, received });
  await applyOnce(world, sender, incoming);
}
