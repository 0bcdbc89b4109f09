/**
 * What waits in all tenants, by ids, as the relay's login sees it: it may read a few tables' waiting rows and change
 * nothing. The work itself is done inside the tenant, by the application's login.
 */
import type { DutyReminderBody, ImportStretchBody } from '@ullage/contracts';
import type { MailRef, ParcelRef, WantedReminder, WebhookRef } from '@ullage/casework';
import pg from 'pg';
import * as z from 'zod';

const Waiting = z.object({ tenant_id: z.uuid(), id: z.uuid() });
const Reminder = z.object({
  tenant_id: z.uuid(),
  duty_id: z.uuid(),
  stage: z.int(),
  due_epoch: z.coerce.number().int(),
  plan_at: z.date(),
});
const Mail = z.object({ tenant_id: z.uuid(), notice_id: z.uuid(), person_id: z.uuid() });
const Stretch = z.object({ tenant_id: z.uuid(), id: z.uuid(), turn: z.int() });
const Tenant = z.object({ tenant_id: z.uuid() });
/** Before all ids. */
const NIL = '00000000-0000-0000-0000-000000000000';
const UNSENT = `SELECT tenant_id, id FROM outbox WHERE sent_at IS NULL ORDER BY tries, created_at, id LIMIT $1`;
const REMINDERS = `
  SELECT tenant_id, duty_id, stage, due_epoch, plan_at FROM reminder
  WHERE reminded_at IS NULL AND dropped_at IS NULL AND plan_at <= $1
  AND (tenant_id, duty_id, stage, due_epoch) > ($2, $3, $4, $5)
  ORDER BY tenant_id, duty_id, stage, due_epoch LIMIT $6`;
const MAILS = `
  SELECT tenant_id, notice_id, person_id FROM notice_mail
  WHERE sent_at IS NULL AND dropped_at IS NULL AND next_at <= $1 ORDER BY next_at, notice_id, person_id LIMIT $2`;
/** Those that were not told of everything and to whom nothing is on its way. */
const WEBHOOKS = `
  SELECT w.tenant_id, w.id FROM webhook w JOIN feed_counter f ON f.tenant_id = w.tenant_id
  WHERE w.stopped_at IS NULL AND w.removed_at IS NULL AND (f.epoch, f.number) <> (w.epoch, w.number)
  AND NOT EXISTS (SELECT FROM webhook_message m WHERE m.tenant_id = w.tenant_id AND m.webhook_id = w.id
    AND m.kind = 'changed' AND m.ended_at IS NULL)
  ORDER BY w.tenant_id, w.id LIMIT $1`;
const WEBHOOK_MESSAGES = `
  SELECT tenant_id, id FROM webhook_message WHERE ended_at IS NULL AND next_at <= $1 ORDER BY next_at, id LIMIT $2`;
const PARCELS = `
  SELECT tenant_id, id FROM parcel WHERE state IN ('waiting', 'working') AND next_at <= $1 ORDER BY next_at, id LIMIT $2`;
const EXPIRED = `SELECT tenant_id, id FROM parcel WHERE expires_at <= $1 ORDER BY expires_at, id LIMIT $2`;
const TENANTS = `SELECT DISTINCT tenant_id FROM duty WHERE state = 'open' AND due_at <= $1 ORDER BY tenant_id`;

const IMPORTS = `
  SELECT tenant_id, id, turn FROM import_run WHERE state IN ('reading', 'checking', 'running', 'undoing')
  ORDER BY tenant_id, id LIMIT $1`;
const WAITING = `SELECT DISTINCT tenant_id FROM command WHERE state = 'waiting' ORDER BY tenant_id`;
/** One look into the index per tenant, however much was sent. */
const SENT = `
  SELECT tenant_id FROM feed_counter CROSS JOIN LATERAL (
    SELECT FROM outbox WHERE outbox.tenant_id = feed_counter.tenant_id AND sent_at <= $1 LIMIT 1) AS old
  ORDER BY tenant_id`;

export interface WaitingMessage {
  readonly tenantId: string;
  readonly id: string;
}

export class EveryTenant {
  readonly #pool: pg.Pool;
  constructor(url: string, onError: (error: Error) => void) {
    this.#pool = new pg.Pool({
      connectionString: url,
      max: 2,
      application_name: 'ullage-relay',
      connectionTimeoutMillis: 5_000,
      keepAlive: true,
    });
    this.#pool.on('error', onError);
    this.#pool.on('connect', (client) => client.on('error', onError));
  }

  /** Messages not sent yet; those that never failed come first, so that one that always does holds up nobody. */
  async unsent(atMost: number): Promise<WaitingMessage[]> {
    const { rows } = await this.#pool.query(UNSENT, [atMost]);
    return rows.map((row) => {
      const { tenant_id: tenantId, id } = Waiting.parse(row);
      return { tenantId, id };
    });
  }

  /** Reminders to be given by `until` and neither given nor dropped, in a fixed order, from after `last` on. */
  async reminders(given: { until: Date; last?: DutyReminderBody; atMost: number }): Promise<WantedReminder[]> {
    const { until, last, atMost } = given;
    const from = last ? [last.tenantId, last.dutyId, last.stage, last.dueEpoch] : [NIL, NIL, -1, -1];
    const { rows } = await this.#pool.query(REMINDERS, [until, ...from, atMost]);
    return rows.map((row) => {
      const { tenant_id: tenantId, duty_id: dutyId, stage, due_epoch: dueEpoch, plan_at: planAt } = Reminder.parse(row);
      return { body: { tenantId, dutyId, stage, dueEpoch }, planAt: planAt.toISOString() };
    });
  }

  /** Mails whose next try is due by `until`, the longest waiting first. */
  async mails(until: Date, atMost: number): Promise<MailRef[]> {
    const { rows } = await this.#pool.query(MAILS, [until, atMost]);
    return rows.map((row) => {
      const { tenant_id: tenantId, notice_id: noticeId, person_id: personId } = Mail.parse(row);
      return { tenantId, noticeId, personId };
    });
  }

  /** Webhooks that a message is to be planned for. */
  webhooks(atMost: number): Promise<WebhookRef[]> {
    return this.#refs(WEBHOOKS, [atMost]);
  }
  /** Messages to webhooks whose next try is due by `until`, the longest waiting first. */
  webhookMessages(until: Date, atMost: number): Promise<WebhookRef[]> {
    return this.#refs(WEBHOOK_MESSAGES, [until, atMost]);
  }
  /** Files that are to be made or taken over, and that nobody works on. */
  parcels(until: Date, atMost: number): Promise<ParcelRef[]> {
    return this.#refs(PARCELS, [until, atMost]);
  }
  /** Files whose time was over by `until`. */
  expiredParcels(until: Date, atMost: number): Promise<ParcelRef[]> {
    return this.#refs(EXPIRED, [until, atMost]);
  }
  async #refs(text: string, values: unknown[]): Promise<{ tenantId: string; id: string }[]> {
    const { rows } = await this.#pool.query(text, values);
    return rows.map((row) => {
      const { tenant_id: tenantId, id } = Waiting.parse(row);
      return { tenantId, id };
    });
  }

  /** Imports with work for the night, each at its next stretch. */
  async imports(atMost: number): Promise<ImportStretchBody[]> {
    const { rows } = await this.#pool.query(IMPORTS, [atMost]);
    return rows.map((row) => {
      const { tenant_id: tenantId, id: importId, turn } = Stretch.parse(row);
      return { tenantId, importId, turn };
    });
  }

  /** Tenants with an open duty due by `until`. */
  withDutiesBy(until: Date): Promise<string[]> {
    return this.#tenants(TENANTS, [until]);
  }
  /** Tenants with a command that waits. */
  withWaiting(): Promise<string[]> {
    return this.#tenants(WAITING);
  }
  /** Tenants with a message sent by `until`. */
  withSentBy(until: Date): Promise<string[]> {
    return this.#tenants(SENT, [until]);
  }

  async #tenants(text: string, values: unknown[] = []): Promise<string[]> {
    const { rows } = await this.#pool.query(text, values);
    return rows.map((row) => Tenant.parse(row).tenant_id);
  }

  async close(): Promise<void> {
    await this.#pool.end();
  }
}
