import type { WebhookFailure, WebhookRef } from '@ullage/casework';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { Round } from '../../relay/round.ts';
import { post } from './post.ts';
import { Unreachable } from './reachable.ts';
import { signatureOf } from './sign.ts';

const AT_ONCE = 50;
/** So many are spoken to at a time: one that is slow holds up few. */
const SIDE_BY_SIDE = 8;

/** In the words of whoever looks at the list. */
const WORDS: Readonly<Record<string, string>> = {
  ENOTFOUND: 'the name is not known',
  EAI_AGAIN: 'the name could not be looked up',
  ECONNREFUSED: 'nobody listens there',
  ECONNRESET: 'hung up',
  EPIPE: 'hung up',
  ETIMEDOUT: 'no answer in time',
};
function wordOf(code: string): string {
  return WORDS[code] ?? (/CERT|SIGNATURE|ALTNAME|SSL|TLS/.test(code) ? 'its certificate is not trusted' : 'no answer');
}
function failureOf(error: unknown): WebhookFailure {
  if (error instanceof Unreachable) return { answer: 'no public address', forGood: true };
  const code = error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
  const isLate = error instanceof Error && (error.name === 'AbortError' || error.name === 'TimeoutError');
  return { answer: isLate ? 'no answer in time' : wordOf(code), forGood: false };
}

/** Tells programs of changes, apart from the queue, as mails are: a program that is slow or dead holds up nothing else. */
@Injectable()
export class Webhooks {
  readonly #parts: Parts;
  readonly #round: Round;
  #stopped = false;

  constructor(@Inject(PARTS) parts: Parts) {
    this.#parts = parts;
    this.#round = new Round(() => this.sendDue(), parts.pace.pollMs);
  }
  start(): void {
    this.#round.start();
  }
  /** Finishes what is under way and takes nothing new. */
  stop(): Promise<void> {
    this.#stopped = true;
    return this.#round.stop();
  }

  async sendDue(): Promise<void> {
    const { everyTenant, clock, log } = this.#parts;
    try {
      for (const webhook of await everyTenant.webhooks(AT_ONCE)) await this.#plan(webhook);
      const due = await everyTenant.webhookMessages(clock.date(), AT_ONCE);
      const next = due.values();
      const lane = async (): Promise<void> => {
        for (const ref of next) if (!this.#stopped) await this.#send(ref);
      };
      await Promise.all(Array.from({ length: SIDE_BY_SIDE }, lane));
    } catch (error) {
      log.trouble('a round of webhooks broke off', error);
    }
  }

  /** One tenant's fault keeps no other from its turn. */
  async #plan(webhook: WebhookRef): Promise<void> {
    const { night, log } = this.#parts;
    await night
      .planWebhook(webhook)
      .catch((error: unknown) => log.trouble('a webhook was not planned', error, { tenant: webhook.tenantId }));
  }

  async #send(ref: WebhookRef): Promise<void> {
    const { night, log, webhookReach, clock } = this.#parts;
    try {
      const found = await night.takeWebhook(ref);
      if (!found) return;
      const body = JSON.stringify(found.body);
      const seconds = Math.floor(clock.date().getTime() / 1000);
      const headers = {
        'webhook-id': found.id,
        'webhook-timestamp': String(seconds),
        'webhook-signature': signatureOf(found.secret, { id: found.id, seconds, body }),
      };
      const outcome = await post({ url: found.url, headers, body }, webhookReach).catch(failureOf);
      const isTold = typeof outcome === 'number' && outcome >= 200 && outcome < 300;
      this.#parts.metrics?.effect('webhook', isTold ? 'sent' : 'failed');
      if (typeof outcome !== 'number') await night.webhookFailed(ref, outcome);
      else if (isTold) await night.webhookTold(ref, String(outcome));
      // 410 Gone: the receiver says that it wants no more (Standard Webhooks).
      else await night.webhookFailed(ref, { answer: String(outcome), forGood: outcome === 410 });
    } catch (error) {
      log.trouble('a webhook was not told', error, { tenant: ref.tenantId, message: ref.id });
    }
  }
}
