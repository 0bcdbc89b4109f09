/** What the night shift does about webhooks: plans a message, takes its tries, and stops whom nobody hears any more. */
import type { WebhookBody } from '@ullage/contracts';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';
import { nightWork } from '../night/night-work.ts';
import { putMessage } from './keep.ts';

export interface WebhookRef {
  readonly tenantId: string;
  readonly id: string;
}
/** A message to be sent now: always under the same id and with the same words, so that a second one is known as such. */
export interface WebhookMail {
  readonly id: string;
  readonly url: string;
  readonly secret: string;
  readonly body: WebhookBody;
}
export interface WebhookFailure {
  /** A status, or a word for why there was no answer. */
  readonly answer: string;
  /** The address may not be reached from here at all. */
  readonly forGood: boolean;
}
/** Some four hours: a program that is put up anew, or a night's outage, is waited for. */
const TRIES = 9;
const KEPT_MS = 30 * 86_400_000;
const FIRST_PAUSE_MS = 60_000;
const LONGEST_PAUSE_MS = 3_600_000;
const pauseMs = (tries: number): number => Math.min(FIRST_PAUSE_MS * 2 ** tries, LONGEST_PAUSE_MS);
const after = (desk: Work, ms: number): Date => new Date(toDate(desk.recordedAt).getTime() + ms);

/** Plans a message for a webhook that was not told of everything yet; while one waits the next changes go with the next. */
export function planWebhook(world: World, { tenantId, id }: WebhookRef): Promise<void> {
  return nightWork(world, { tenantId, action: 'webhook-planned' }, async (desk) => {
    const row = await desk.tx.webhook.findUnique({ where: { tenantId_id: { tenantId, id } } });
    if (!row || row.stoppedAt !== null || row.removedAt !== null) return;
    const head = await desk.tx.feedCounter.findUniqueOrThrow({ where: { tenantId } });
    if (head.epoch === row.epoch && head.number === row.number) return;
    // The list is for looking after the line, not a record: what changed stands in feed and audit trail.
    await desk.tx.webhookMessage.deleteMany({
      where: { tenantId, webhookId: id, endedAt: { lt: after(desk, -KEPT_MS) } },
    });
    // A new epoch begins anew: the receiver fetches everything.
    const from = head.epoch === row.epoch ? row : { epoch: head.epoch, number: 0n };
    await putMessage(desk.tx, { world, tenantId, webhookId: id, kind: 'changed', from, to: head.number });
  });
}

/** Takes one try, for the caller alone; undefined when there is nothing to send now. */
export function takeWebhook(world: World, { tenantId, id }: WebhookRef): Promise<WebhookMail | undefined> {
  return nightWork(world, { tenantId, action: 'webhook-taken' }, async (desk) => {
    const row = await desk.tx.webhookMessage.findUnique({
      where: { tenantId_id: { tenantId, id } },
      include: { webhook: true },
    });
    if (!row || row.endedAt !== null || row.nextAt > toDate(desk.recordedAt)) return undefined;
    const taken = await desk.tx.webhookMessage.updateMany({
      where: { tenantId, id, endedAt: null, nextAt: row.nextAt },
      data: { tries: row.tries + 1, nextAt: after(desk, pauseMs(row.tries)) },
    });
    if (taken.count === 0) return undefined;
    return { id, url: row.webhook.url, secret: row.webhook.secret, body: row.body as unknown as WebhookBody };
  });
}

export function webhookTold(world: World, { tenantId, id }: WebhookRef, answer: string): Promise<void> {
  return nightWork(world, { tenantId, action: 'webhook-told' }, async (desk) => {
    const row = await desk.tx.webhookMessage.findUnique({ where: { tenantId_id: { tenantId, id } } });
    const ended = await desk.tx.webhookMessage.updateMany({
      where: { tenantId, id, endedAt: null },
      data: { endedAt: toDate(desk.recordedAt), delivered: true, answer },
    });
    if (!row || ended.count === 0 || row.kind !== 'changed') return;
    const { epoch, number } = (row.body as unknown as WebhookBody).data;
    await desk.tx.webhook.update({
      where: { tenantId_id: { tenantId, id: row.webhookId } },
      data: { epoch, number: BigInt(number) },
    });
  });
}

/** The next try comes by itself. After too many the webhook is stopped, and a person is told; a test is tried once. */
export function webhookFailed(
  world: World,
  { tenantId, id }: WebhookRef,
  { answer, forGood }: WebhookFailure,
): Promise<void> {
  return nightWork(world, { tenantId, action: 'webhook-failed' }, async (desk) => {
    const row = await desk.tx.webhookMessage.findUnique({
      where: { tenantId_id: { tenantId, id } },
      include: { webhook: true },
    });
    if (!row || row.endedAt !== null) return;
    const isOver = forGood || row.kind === 'test' || row.tries >= TRIES;
    const end = isOver ? { endedAt: toDate(desk.recordedAt) } : {};
    await desk.tx.webhookMessage.updateMany({ where: { tenantId, id, endedAt: null }, data: { answer, ...end } });
    if (isOver && row.kind === 'changed') await stop(desk, row.webhook);
  });
}

async function stop(desk: Work, { id, url }: { readonly id: string; readonly url: string }): Promise<void> {
  const { tx, tenantId } = desk;
  const at = toDate(desk.recordedAt);
  const stopped = await tx.webhook.updateMany({
    where: { tenantId, id, stoppedAt: null },
    data: { stoppedAt: at, stoppedWhy: 'failing' },
  });
  if (stopped.count === 0) return;
  const attentionId = desk.world.newId();
  const host = URL.parse(url)?.host ?? url;
  const detail = `${host} took no message. It is stopped: look there, then start it again under Settings, Webhooks.`;
  await tx.attention.create({
    data: {
      tenantId,
      id: attentionId,
      kind: 'record',
      reason: 'webhook-stopped',
      problem: { title: 'A webhook is stopped', detail },
      openedAt: at,
    },
  });
  desk.changed('attention', attentionId, 'made');
}
