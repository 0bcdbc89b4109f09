/** The programs that are told of changes: added, listed, stopped and removed by whoever runs the firm. */
import { Refusal } from '@ullage/contracts';
import type { WebhookBody, WebhookList } from '@ullage/contracts';
import type { Prisma, Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { notFound, toDate, toInstant } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';

/** A firm has a few programs; each costs a message for every change. */
const AT_MOST = 10;
const SHOWN = 20;

export interface NewWebhook {
  readonly id: string;
  readonly url: string;
  readonly secret: string;
}
async function audited(world: World, actor: Actor, of: { tx: Tx; action: string; id: string }): Promise<void> {
  const { tenantId, userId, address = null } = actor;
  await of.tx.audit.create({
    data: {
      tenantId,
      id: world.newId(),
      at: toDate(world.now()),
      userId,
      commandId: null,
      action: of.action,
      recordKind: 'webhook',
      recordId: of.id,
      detail: {},
      address,
    },
  });
}

/** It is told of what changes from now on. @throws Refusal `not-possible` when there are enough */
export function addWebhook(world: World, actor: Actor, { id, url, secret }: NewWebhook): Promise<void> {
  const { tenantId } = actor;
  return world.database.inTenant(tenantId, async (tx) => {
    if ((await tx.webhook.count({ where: { tenantId, removedAt: null } })) >= AT_MOST)
      throw new Refusal('not-possible', `There are ${AT_MOST} already: remove one that nobody needs.`);
    const { epoch, number } = await tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
    await tx.webhook.create({ data: { tenantId, id, url, secret, epoch, number, madeAt: toDate(world.now()) } });
    await audited(world, actor, { tx, action: 'add-webhook', id });
  });
}

async function standing(tx: Tx, tenantId: string, id: string) {
  const row = await tx.webhook.findUnique({ where: { tenantId_id: { tenantId, id } } });
  if (!row || row.removedAt !== null) throw notFound();
  return row;
}

/** Stops it by hand, or starts it again from what changed since it was last told. */
export function setWebhook(world: World, actor: Actor, { id, on }: { id: string; on: boolean }): Promise<void> {
  const { tenantId } = actor;
  return world.database.inTenant(tenantId, async (tx) => {
    await standing(tx, tenantId, id);
    await tx.webhook.update({
      where: { tenantId_id: { tenantId, id } },
      data: on ? { stoppedAt: null, stoppedWhy: null } : { stoppedAt: toDate(world.now()), stoppedWhy: 'by-hand' },
    });
    if (!on) await endWaiting(world, tx, { tenantId, id });
    await audited(world, actor, { tx, action: on ? 'start-webhook' : 'stop-webhook', id });
  });
}

export function removeWebhook(world: World, actor: Actor, id: string): Promise<void> {
  const { tenantId } = actor;
  return world.database.inTenant(tenantId, async (tx) => {
    await standing(tx, tenantId, id);
    await tx.webhook.update({
      where: { tenantId_id: { tenantId, id } },
      data: { removedAt: toDate(world.now()) },
    });
    await endWaiting(world, tx, { tenantId, id });
    await audited(world, actor, { tx, action: 'remove-webhook', id });
  });
}

async function endWaiting(world: World, tx: Tx, of: { tenantId: string; id: string }): Promise<void> {
  await tx.webhookMessage.updateMany({
    where: { tenantId: of.tenantId, webhookId: of.id, endedAt: null },
    data: { endedAt: toDate(world.now()) },
  });
}

/** Sends a message that says nothing but that it came. One at a time. */
export function testWebhook(world: World, actor: Actor, id: string): Promise<void> {
  const { tenantId } = actor;
  return world.database.inTenant(tenantId, async (tx) => {
    const row = await standing(tx, tenantId, id);
    if (row.stoppedAt !== null) throw new Refusal('not-possible', 'It is stopped: start it again first.');
    await putMessage(tx, { world, tenantId, webhookId: id, kind: 'test', from: row });
  });
}

interface From {
  readonly epoch: number;
  readonly number: bigint;
}
/** A message that waits to be sent; nothing where one of its kind waits already. */
export async function putMessage(
  tx: Tx,
  of: {
    world: World;
    tenantId: string;
    webhookId: string;
    kind: WebhookBody['type'];
    from: From;
    to?: bigint;
  },
): Promise<void> {
  const { world, tenantId, webhookId, kind, from } = of;
  const at = toDate(world.now());
  const body: WebhookBody = {
    type: kind,
    timestamp: world.now(),
    data: { epoch: from.epoch, since: Number(from.number), number: Number(of.to ?? from.number) },
  };
  await tx.webhookMessage.createMany({
    data: {
      tenantId,
      id: world.newId(),
      webhookId,
      kind,
      body: body as unknown as Prisma.InputJsonValue,
      madeAt: at,
      nextAt: at,
      tries: 0,
    },
    skipDuplicates: true,
  });
}

export async function webhooksView({ tx, tenantId }: Viewer): Promise<WebhookList> {
  const rows = await tx.webhook.findMany({
    where: { tenantId, removedAt: null },
    include: { messages: { orderBy: [{ madeAt: 'desc' }, { id: 'desc' }], take: SHOWN } },
    orderBy: [{ madeAt: 'asc' }, { id: 'asc' }],
  });
  return {
    items: rows.map((row) => ({
      id: row.id,
      url: row.url,
      madeAt: toInstant(row.madeAt),
      state: (row.stoppedWhy ?? 'on') as WebhookList['items'][number]['state'],
      messages: row.messages.map((message) => ({
        id: message.id,
        kind: message.kind as WebhookBody['type'],
        madeAt: toInstant(message.madeAt),
        state: message.endedAt === null ? 'waits' : message.delivered ? 'delivered' : 'given-up',
        tries: message.tries,
        answer: message.answer,
        nextAt: message.endedAt === null ? toInstant(message.nextAt) : null,
      })),
    })),
  };
}
