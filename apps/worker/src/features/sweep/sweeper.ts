import { reminderJobId } from '@ullage/contracts';
import type { DutyReminderBody } from '@ullage/contracts';
import type { WantedReminder } from '@ullage/casework';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { Queues } from '../../queue/queues.ts';
import { Relay } from '../../relay/relay.ts';

const AT_ONCE = 500;
const DAY_MS = 86_400_000;
/** A reminder further off is put back when it comes so near: nothing is lost, and a sweep stays small. */
const PUT_BACK_DAYS = 2;
/** As far ahead as return visits are proposed; law that changes by time has its edge behind. */
const DUE_DAYS = 60;
/**
 * A message that was sent is kept for as long as the law's first repair takes, thirty days: until then somebody may ask
 * whether the queue was told. What came of it stays in reminders, notices and the audit trail.
 */
const SENT_KEPT_DAYS = 30;

/** Puts back whatever ought to be queued and is not. Several may sweep at once: each step is safe to repeat. */
@Injectable()
export class Sweeper {
  readonly #parts: Parts;
  readonly #queues: Queues;
  readonly #relay: Relay;
  #recomputedAt: number | undefined;
  /** When it last began, on the process's own clock. */
  lastAt: number | undefined;

  constructor(@Inject(PARTS) parts: Parts, queues: Queues, relay: Relay) {
    this.#parts = parts;
    this.#queues = queues;
    this.#relay = relay;
  }

  async sweep(): Promise<void> {
    this.lastAt = performance.now();
    await this.#recomputeSometimes();
    await this.carryOnAll();
    await this.putBack();
    await this.putBackImports();
    this.#relay.wake();
    await this.pruneAll();
  }

  /** Commands whose turn came when nobody lived to see it; what has waited for long is shown to a person. */
  async carryOnAll(): Promise<void> {
    const { everyTenant, night, log } = this.#parts;
    await this.#each(await everyTenant.withWaiting(), 'waiting commands were not looked after', async (tenant) => {
      for (let more = true; more;) {
        const done = await night.carryOn(tenant);
        for (const fault of done.faults) log.trouble('a command that waited was not carried out', fault, { tenant });
        ({ more } = done);
      }
      await night.showLongWaits(tenant);
    });
  }

  /** A batch of each tenant's messages at a time: a sweep stays small, and the next one goes on. */
  async pruneAll(): Promise<void> {
    const { everyTenant, night, clock } = this.#parts;
    const until = new Date(clock.date().getTime() - SENT_KEPT_DAYS * DAY_MS);
    await this.#each(await everyTenant.withSentBy(until), 'sent messages were not pruned', async (tenant) => {
      await night.prune(tenant, until.toISOString());
    });
  }

  /** Every reminder that ought to be on the queue soon, batch by batch. */
  async putBack(): Promise<void> {
    const until = new Date(this.#parts.clock.date().getTime() + PUT_BACK_DAYS * DAY_MS);
    let last: DutyReminderBody | undefined;
    for (;;) {
      const batch = await this.#parts.everyTenant.reminders({
        until,
        atMost: AT_ONCE,
        ...(last === undefined ? {} : { last }),
      });
      await this.#queues.reminders.put(await this.#notHeld(batch));
      last = batch.at(-1)?.body;
      if (batch.length < AT_ONCE) return;
    }
  }

  /** Every import that was left in the middle, at the stretch it has come to. */
  async putBackImports(): Promise<void> {
    for (const stretch of await this.#parts.everyTenant.imports(AT_ONCE)) await this.#queues.imports.put(stretch);
  }

  /** A job that keeps failing lies with a person until they say "try again". */
  async #notHeld(batch: readonly WantedReminder[]): Promise<WantedReminder[]> {
    const byTenant = Map.groupBy(batch, ({ body }) => body.tenantId);
    const free: WantedReminder[] = [];
    for (const [tenantId, reminders] of byTenant) {
      const held = await this.#parts.night.held(
        tenantId,
        reminders.map(({ body }) => reminderJobId(body)),
      );
      free.push(...reminders.filter(({ body }) => !held.has(reminderJobId(body))));
    }
    return free;
  }

  async #recomputeSometimes(): Promise<void> {
    const now = performance.now();
    if (this.#recomputedAt !== undefined && now - this.#recomputedAt < this.#parts.pace.recomputeMs) return;
    this.#recomputedAt = now;
    await this.recomputeAll();
  }

  async recomputeAll(): Promise<void> {
    const { everyTenant, night, clock, log } = this.#parts;
    const until = new Date(clock.date().getTime() + DUE_DAYS * DAY_MS);
    await this.#each(await everyTenant.withDutiesBy(until), 'a tenant was not recomputed', async (tenant) => {
      for (let more = true; more;) {
        const done = await night.recomputeDue(tenant);
        for (const fault of done.faults) log.trouble('a circuit was not recomputed', fault, { tenant });
        ({ more } = done);
      }
    });
  }

  /** One tenant's fault keeps no other from its turn. */
  async #each(tenants: readonly string[], fault: string, work: (tenant: string) => Promise<void>): Promise<void> {
    for (const tenant of tenants)
      await work(tenant).catch((error: unknown) => this.#parts.log.trouble(fault, error, { tenant }));
  }
}
