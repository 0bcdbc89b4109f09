/** The two ways in: a desk's single command, and a device's batch. */
import { faultsOf, plainWords, Push, Refusal } from '@ullage/contracts';
import type { CommandAnswer, PushAnswer } from '@ullage/contracts';
import * as z from 'zod';
import type { Actor, DeskCommand, World } from '../office.ts';
import { applyOnce } from './apply.ts';
import { readDesk, readDevice } from './envelope.ts';
import type { Incoming } from './envelope.ts';
import { keepSent } from './keep.ts';
import type { Sent } from './keep.ts';
import { carryOnAfter, carryOut, storedCommands } from './waiting.ts';

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
  // A repeat looks too: the first time may have ended between the two. Whoever waits and fails has no part in this
  // answer: it goes on waiting, and the night's work tries it again and says why it fails.
  if (answer.outcome === 'applied' || answer.outcome === 'already-applied')
    await carryOnAfter(world, actor, incoming.id);
  return answer;
}

async function tryAgain(world: World, actor: Actor, attentionId: string): Promise<void> {
  const { tenantId } = actor;
  const held = await world.database.inTenant(tenantId, async (tx) => {
    const item = await tx.attention.findUnique({ where: { tenantId_id: { tenantId, id: attentionId } } });
    return storedCommands(tx, tenantId, item?.commandId ? [item.commandId] : []);
  });
  await carryOut(world, actor, held);
}
