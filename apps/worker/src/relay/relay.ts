import type { Message } from '@ullage/casework';
import { DutiesChanged, ImportWorks } from '@ullage/contracts';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../parts.ts';
import type { Parts } from '../parts.ts';
import { Queues } from '../queue/queues.ts';
import type { WaitingMessage } from './every-tenant.ts';
import { Round } from './round.ts';
import { Wake } from './wake.ts';

const AT_ONCE = 200;
const FIRST_PAUSE_MS = 1_000;
const LONGEST_PAUSE_MS = 600_000;

class Unreadable extends Error {}

/**
 * Carries what commands left in the outbox to the queue, at least once: a message is marked only after the queue has
 * it, and the queue takes the same job once. Several relays may run.
 */
@Injectable()
export class Relay {
  readonly #parts: Parts;
  readonly #queues: Queues;
  readonly #round: Round;
  readonly #wake: Wake;
  /** Messages that failed here: how often, and when they are tried again on the process's own clock. */
  readonly #pauses = new Map<string, { times: number; until: number }>();

  constructor(@Inject(PARTS) parts: Parts, queues: Queues) {
    this.#parts = parts;
    this.#queues = queues;
    this.#round = new Round(() => this.sendAll(), parts.pace.pollMs);
    this.#wake = new Wake({ url: parts.databaseUrl, log: parts.log, onChange: () => this.#round.wake() });
  }
  start(): void {
    this.#round.start();
    void this.#wake.start();
  }
  wake(): void {
    this.#round.wake();
  }
  async stop(): Promise<void> {
    await this.#wake.stop();
    await this.#round.stop();
  }

  /** Sends what waits, batch by batch; what fails is left for later. */
  async sendAll(): Promise<void> {
    try {
      for (let more = true; more;) {
        const waiting = await this.#parts.everyTenant.unsent(AT_ONCE);
        const ready = waiting.filter(({ id }) => (this.#pauses.get(id)?.until ?? 0) <= performance.now());
        const sent = await this.#sendEach(ready);
        more = waiting.length === AT_ONCE && sent > 0;
      }
    } catch (error) {
      this.#parts.log.trouble('the outbox could not be read', error);
    }
  }

  async #sendEach(messages: readonly WaitingMessage[]): Promise<number> {
    let sent = 0;
    for (const message of messages) {
      try {
        await this.#send(message);
        this.#pauses.delete(message.id);
        sent += 1;
      } catch (error) {
        await this.#keepForLater(message, error);
      }
    }
    return sent;
  }

  async #send({ tenantId, id }: WaitingMessage): Promise<void> {
    const { night } = this.#parts;
    const message = await night.message(tenantId, id);
    if (!message) return;
    await this.#carry(tenantId, message);
    await night.sent(tenantId, id);
  }

  async #carry(tenantId: string, message: Message): Promise<void> {
    switch (message.topic) {
      case DutiesChanged.topic: {
        const { wanted, over } = await this.#parts.night.reminders(tenantId, message.circuitId);
        await this.#queues.reminders.drop(over);
        await this.#queues.reminders.put(wanted);
        return;
      }
      case ImportWorks.topic: {
        const next = await this.#parts.night.nextStretch(tenantId, message.importId);
        if (next) await this.#queues.imports.put(next);
        return;
      }
      case 'unreadable':
        throw new Unreadable('Topic or body is not known here.');
    }
  }

  async #keepForLater({ tenantId, id }: WaitingMessage, error: unknown): Promise<void> {
    const { night, log } = this.#parts;
    const times = (this.#pauses.get(id)?.times ?? 0) + 1;
    const pause = Math.min(FIRST_PAUSE_MS * 2 ** (times - 1), LONGEST_PAUSE_MS);
    this.#pauses.set(id, { times, until: performance.now() + pause });
    log.trouble('a message could not be sent', error, { tenant: tenantId, message: id, times });
    const why = error instanceof Error ? error.message : String(error);
    const failure = { id, why, forGood: error instanceof Unreadable };
    // Without the database nothing can be counted either.
    await night.failed(tenantId, failure).catch((lost: unknown) => log.trouble('a failure was not counted', lost));
  }
}
