import { reminderJobId } from '@ullage/contracts';
import type { DutyReminderBody } from '@ullage/contracts';
import type { WantedReminder } from '@ullage/casework';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { ReminderQueue } from '../../queue/reminder-queue.ts';
import { Relay } from '../../relay/relay.ts';

const AT_ONCE = 500;
const DAY_MS = 86_400_000;
/** A reminder further off is put back when it comes so near: nothing is lost, and a sweep stays small. */
const PUT_BACK_DAYS = 2;
/** As far ahead as return visits are proposed; law that changes by time has its edge behind. */
const DUE_DAYS = 60;

/** Puts back whatever ought to be queued and is not. Several may sweep at once: each step is safe to repeat. */
@Injectable()
export class Sweeper {
  readonly #parts: Parts;
  readonly #queue: ReminderQueue;
  readonly #relay: Relay;
  #recomputedAt: number | undefined;
  /** When it last began, on the process's own clock. */
  lastAt: number | undefined;

  constructor(@Inject(PARTS) parts: Parts, queue: ReminderQueue, relay: Relay) {
    this.#parts = parts;
    this.#queue = queue;
    this.#relay = relay;
  }

  async sweep(): Promise<void> {
    this.lastAt = performance.now();
    await this.#recomputeSometimes();
    await this.putBack();
    this.#relay.wake();
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
      await this.#queue.put(await this.#notHeld(batch));
      last = batch.at(-1)?.body;
      if (batch.length < AT_ONCE) return;
    }
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

  /** One tenant's fault keeps no other from its turn. */
  async recomputeAll(): Promise<void> {
    const { everyTenant, night, clock, log } = this.#parts;
    const until = new Date(clock.date().getTime() + DUE_DAYS * DAY_MS);
    for (const tenantId of await everyTenant.withDutiesBy(until)) {
      try {
        for (let more = true; more;) {
          const done = await night.recomputeDue(tenantId);
          for (const fault of done.faults) log.trouble('a circuit was not recomputed', fault, { tenant: tenantId });
          ({ more } = done);
        }
      } catch (error) {
        log.trouble('a tenant was not recomputed', error, { tenant: tenantId });
      }
    }
  }
}
