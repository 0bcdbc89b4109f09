import { Refusal } from '@ullage/contracts';
import type { CommandAnswer } from '@ullage/contracts';
import { isUniqueViolation } from '@ullage/database';
import type { Prisma, Tx } from '@ullage/database';
import { HANDLERS } from '../commands/handlers.ts';
import type { Actor, World } from '../office.ts';
import { toDate } from './case.ts';
import type { Case, Received } from './case.ts';
import type { Incoming } from './envelope.ts';
import { hashOf } from './hash.ts';
import { closeLongWait } from './keep.ts';
import { openCase } from './open-case.ts';
import { answerAgain } from './problem.ts';
import { withRetry } from './retry.ts';
import { settle } from './settle.ts';

type Stored = { hash: string; state: string; answer: unknown };

/** What is known of a command id: a repeat is answered as the first time, other content under the same id is refused. */
function answerKnown(stored: Stored, hash: string): CommandAnswer | undefined {
  if (stored.hash !== hash) {
    throw new Refusal('command-changed', 'This id was used before with other content; send the change under a new id.');
  }
  if (stored.state === 'waiting') return undefined;
  return answerAgain(stored.answer as CommandAnswer);
}

/** Takes the id. False when another transaction has it: the row is then there to be read. */
async function claim(
  tx: Tx,
  given: { actor: Actor; incoming: Incoming; hash: string; world: World },
): Promise<boolean> {
  const { actor, incoming, hash, world } = given;
  const { device } = incoming;
  const claimed = await tx.command.createMany({
    data: {
      tenantId: actor.tenantId,
      id: incoming.id,
      kind: incoming.kind,
      deviceId: device?.id ?? null,
      deviceSeq: device?.seq ?? null,
      hash,
      envelope: incoming.received as Prisma.InputJsonValue,
      state: 'waiting',
      userId: actor.userId,
      happenedAt: toDate(incoming.happenedAt),
      sentAt: device ? toDate(device.sentAt) : null,
      receivedAt: toDate(actor.takenOver?.receivedAt ?? world.now()),
    },
    skipDuplicates: true,
  });
  return claimed.count === 1;
}

async function missing(tx: Tx, tenantId: string, ids: readonly string[]): Promise<string[]> {
  if (ids.length === 0) return [];
  const there = await tx.command.findMany({
    where: { tenantId, id: { in: [...ids] }, state: 'applied' },
    select: { id: true },
  });
  return ids.filter((id) => !there.some((row) => row.id === id));
}

/** A command that waits is carried out later in a person's name: a program, whose key may end before, sends it in turn. */
function tooEarly(): Refusal {
  const detail = 'Depends on: has not been applied yet; send this after it.';
  return new Refusal('not-possible', detail, { errors: [{ pointer: '#/dependsOn', detail }] });
}

async function keepWaiting(tx: Tx, incoming: Incoming, waits: readonly string[]): Promise<CommandAnswer> {
  const { tenantId } = await tx.command.findFirstOrThrow({ where: { id: incoming.id }, select: { tenantId: true } });
  await tx.commandWait.createMany({
    data: waits.map((waitsFor) => ({ tenantId, commandId: incoming.id, waitsFor })),
    skipDuplicates: true,
  });
  return { id: incoming.id, outcome: 'waiting', records: [], asks: [] };
}

async function work(tx: Tx, given: { world: World; actor: Actor; incoming: Incoming }): Promise<CommandAnswer> {
  const { world, actor, incoming } = given;
  const { tenantId } = actor;
  const hash = hashOf(incoming.received);
  const first = await claim(tx, { actor, incoming, hash, world });
  if (!first) {
    // Two that try one waiting command at once: the second waits here and finds it applied.
    await tx.$queryRaw`SELECT id FROM command WHERE tenant_id = ${tenantId}::uuid AND id = ${incoming.id}::uuid FOR NO KEY UPDATE`;
    const stored = await tx.command.findUnique({ where: { tenantId_id: { tenantId, id: incoming.id } } });
    if (!stored)
      throw new Refusal('command-changed', 'The device used this number for another command; send it under a new one.');
    // What lay with a person there and was applied later is applied later here.
    const lies = actor.takenOver !== undefined && stored.state === 'attention';
    const known = answerKnown(lies ? { ...stored, state: 'waiting' } : stored, hash);
    if (known) return known;
  }
  const waits = await missing(tx, tenantId, incoming.dependsOn);
  if (waits.length > 0 && actor.key) throw tooEarly();
  if (waits.length > 0) return keepWaiting(tx, incoming, waits);
  const desk = await openCase({ world, actor, tx, commandId: incoming.id });
  const received: Received<never> = { ...incoming, body: incoming.body as never };
  await HANDLERS[incoming.kind](desk, received);
  await settle(desk, incoming.kind, async () => {
    const skew = incoming.device?.skewSeconds ?? 0;
    const answer: CommandAnswer = {
      id: incoming.id,
      outcome: 'applied',
      records: desk.changes.map(({ kind, id }) => ({ kind, id })),
      asks: desk.asks,
      ...(skew === 0 ? {} : { clockSkewSeconds: skew }),
    };
    await tx.commandWait.deleteMany({ where: { tenantId, commandId: incoming.id } });
    await tx.command.update({
      where: { tenantId_id: { tenantId, id: incoming.id } },
      data: {
        state: 'applied',
        answer: answer as unknown as Prisma.InputJsonValue,
        appliedAt: toDate(desk.recordedAt),
      },
    });
    if (!first) await nobodyNeedsToAsk(desk);
  });
  return answerOf(tx, tenantId, incoming.id);
}

/** It waited, perhaps for so long that somebody was asked to look after it. */
async function nobodyNeedsToAsk(desk: Case): Promise<void> {
  const { tx, tenantId, commandId, recordedAt: at } = desk;
  for (const id of await closeLongWait(tx, { tenantId, commandId, at })) desk.changed('attention', id);
}

async function answerOf(tx: Tx, tenantId: string, id: string): Promise<CommandAnswer> {
  const row = await tx.command.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id } },
    select: { answer: true },
  });
  return row.answer as unknown as CommandAnswer;
}

/**
 * Applies a command once: fact, ledger, duties, audit trail, outbox and feed commit together or not at all.
 * @throws Refusal when it cannot be; nothing of it is then in the database
 */
export async function applyOnce(world: World, actor: Actor, incoming: Incoming): Promise<CommandAnswer> {
  const answer = await withRetry(() =>
    world.database.inTenant(actor.tenantId, (tx) => work(tx, { world, actor, incoming })),
  ).catch((error: unknown) => {
    if (isUniqueViolation(error))
      throw new Refusal('taken', 'Something with this id or name is already there; take another.');
    throw error;
  });
  if (answer.outcome === 'applied' && !actor.takenOver) await world.database.notify('ullage_feed', actor.tenantId);
  return answer;
}
