import type { MailRef } from '@ullage/casework';
import { MailFailed, reminderMail } from '@ullage/mail';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { Round } from '../../relay/round.ts';

const AT_ONCE = 100;
type Outcome = 'sent' | 'nothing' | 'failed' | 'no-server';

/**
 * Sends the mails of reminders, one after the other, apart from the queue: a mail server that is slow or dead holds up no
 * notice, and a queue that lost everything loses no mail. Several workers may run.
 */
@Injectable()
export class ReminderMails {
  readonly #parts: Parts;
  readonly #round: Round;
  #stopped = false;

  constructor(@Inject(PARTS) parts: Parts) {
    this.#parts = parts;
    this.#round = new Round(() => this.sendDue(), parts.pace.pollMs);
  }
  start(): void {
    if (this.#parts.mail) this.#round.start();
  }
  /** Finishes the mail under way and takes no other. */
  stop(): Promise<void> {
    this.#stopped = true;
    return this.#round.stop();
  }

  async sendDue(): Promise<void> {
    const { everyTenant, clock, log } = this.#parts;
    try {
      for (const ref of await everyTenant.mails(clock.date(), AT_ONCE)) {
        // The rest would wait for the same server: they keep their tries, and the next round begins with another.
        if (this.#stopped) return;
        const outcome = await this.#send(ref);
        if (outcome !== 'nothing') this.#parts.metrics?.effect('mail', outcome);
        if (outcome === 'no-server') return;
      }
    } catch (error) {
      log.trouble('a round of mails broke off', error);
    }
  }

  async #send(ref: MailRef): Promise<Outcome> {
    const { night, mail, log } = this.#parts;
    if (!mail) return 'nothing';
    const { tenantId, noticeId, personId } = ref;
    try {
      const found = await night.takeMail(ref);
      if (!found) return 'nothing';
      const { to, unitId, ...reminder } = found;
      const words = reminderMail({ ...reminder, url: `${mail.publicOrigin}/units/${unitId}` });
      // The same at every try: what a dying process sent twice is one message to a mail system.
      await mail.mailer.send({ to, key: `reminder.${noticeId}.${personId}`, ...words });
    } catch (error) {
      log.trouble('a reminder was not mailed', error, { tenant: tenantId, notice: noticeId });
      return this.#failed(ref, error);
    }
    await night.mailed(ref);
    return 'sent';
  }

  async #failed(ref: MailRef, error: unknown): Promise<Outcome> {
    const { night, log } = this.#parts;
    const { fault, code } = error instanceof MailFailed ? error : { fault: 'ours', code: 'fault' };
    // Its try is taken all the same, and the next one comes when the pause is over.
    await night
      .mailFailed(ref, { forGood: fault === 'address', why: code })
      .catch((lost: unknown) => log.trouble('a failure was not counted', lost));
    return fault === 'server' ? 'no-server' : 'failed';
  }
}
