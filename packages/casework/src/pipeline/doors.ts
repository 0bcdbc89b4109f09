/** The two ways in: a desk's single command, and a device's batch. */
import { faultsOf, plainWords, Push, Refusal, Role } from '@ullage/contracts';
import type { CommandAnswer, CommandName, PushAnswer } from '@ullage/contracts';
import * as z from 'zod';
import type { Actor, DeskCommand, World } from '../office.ts';
import { applyOnce } from './apply.ts';
import { readDesk, readDevice } from './envelope.ts';
import type { Incoming } from './envelope.ts';
import { restored } from './envelope-text.ts';
import { keepSent, keepStored } from './keep.ts';
import type { Sent } from './keep.ts';

/** Applies a desk command, then whatever had waited for it. @throws Refusal */
export async function applyDesk(world: World, actor: Actor, command: DeskCommand): Promise<CommandAnswer> {
  const incoming = readDesk(world, actor, command);
  const answer = await applyInTurn(world, actor, incoming);
  if (answer.outcome === 'applied' && command.kind === 'settle-attention')
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

async function applyOne(world: World, actor: Actor, sent: Sent): Promise<CommandAnswer> {
  try {
    return await applyInTurn(world, actor, readDevice(world, actor, sent));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return keepSent(world, actor, { sent, refusal: error });
  }
}

/** Applies a command, then what had waited for it. @throws Refusal */
async function applyInTurn(world: World, actor: Actor, incoming: Incoming): Promise<CommandAnswer> {
  let answer = await applyOnce(world, actor, incoming);
  // What it waits for may have arrived while it was being put aside, before its waiting could be seen.
  if (answer.outcome === 'waiting') answer = await applyOnce(world, actor, incoming);
  // A repeat looks too: the first time may have ended between the two.
  if (answer.outcome === 'applied' || answer.outcome === 'already-applied')
    await applyWaiting(world, actor, incoming.id);
  return answer;
}

/** Commands that waited for this one are tried now; what they in turn held up follows. */
async function applyWaiting(world: World, actor: Actor, arrivedId: string): Promise<void> {
  const { tenantId } = actor;
  const waiting = await world.database.inTenant(tenantId, (tx) =>
    tx.commandWait.findMany({
      where: { tenantId, waitsFor: arrivedId, command: { state: 'waiting' } },
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
/** Runs a kept command as the one who sent it, in the role they have now. Its refusal is its own affair, and kept. */
async function applyStored(world: World, actor: Actor, command: StoredCommand): Promise<void> {
  try {
    const sender = await senderOf(world, actor, command.userId);
    await applyInTurn(world, sender, readStored(world, sender, command));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await keepStored(world, actor, { id: command.id, refusal: error });
  }
}

async function senderOf(world: World, actor: Actor, userId: string): Promise<Actor> {
  const { tenantId } = actor;
  const person = await world.database.inTenant(tenantId, (tx) =>
    tx.person.findFirst({ where: { tenantId, userId, active: true }, select: { role: true } }),
  );
  const role = Role.safeParse(person?.role);
  if (!role.success) throw new Refusal('not-allowed', 'Who sent this does not belong to the contractor any more.');
  return { ...actor, userId, role: role.data };
}

function readStored(world: World, sender: Actor, command: StoredCommand): Incoming {
  const receivedAt = command.receivedAt.toISOString();
  if (command.deviceId !== null) {
    const sentAt = command.sentAt?.toISOString() ?? receivedAt;
    return readDevice(world, sender, { received: restored(command.envelope), sentAt, receivedAt });
  }
  const { kind, ...received } = command.envelope as { kind: CommandName };
  return readDesk(world, sender, { id: command.id, kind, received, receivedAt });
}
