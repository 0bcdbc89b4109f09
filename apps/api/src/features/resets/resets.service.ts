import { Inject, Injectable } from '@nestjs/common';
import type { OnModuleDestroy } from '@nestjs/common';
import type { Clock } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import { resetMail } from '@ullage/mail';
import type { Mailer } from '@ullage/mail';
import { RESETS, take } from '../../auth/attempts.ts';
import { LINK_DAYS } from '../../auth/create-auth.ts';
import type { Auth } from '../../auth/create-auth.ts';

import type { Log } from '../../http/log.ts';
import type { ResetAsked, ResetWay } from './shapes.ts';

export interface ResetsParts {
  readonly auth: Auth;
  readonly clock: Clock;
  readonly publicOrigin: string;
  readonly log: Log;
  /** Undefined where no mail is sent. */
  readonly mail: Mailer | undefined;
}
export const RESETS_PARTS = Symbol('resets parts');

@Injectable()
export class ResetsService implements OnModuleDestroy {
  readonly #parts: ResetsParts;
  readonly #underWay = new Set<Promise<void>>();
  constructor(@Inject(RESETS_PARTS) parts: ResetsParts) {
    this.#parts = parts;
  }
  /** What was promised is sent before the database goes. */
  async onModuleDestroy(): Promise<void> {
    await Promise.all(this.#underWay);
  }

  way(): ResetWay {
    return { byMail: this.#parts.mail !== undefined };
  }

  /**
   * Whether somebody has the address is looked up after the answer is given: neither the answer nor its time can tell.
   * @throws Refusal `not-possible` without mail, `too-many` for an address that was asked for too often
   */
  async ask(email: string): Promise<ResetAsked> {
    const { auth, clock, mail } = this.#parts;
    if (mail === undefined)
      throw new Refusal('not-possible', 'No mail is sent here: an owner or manager makes a link.');
    await take(auth.pool, RESETS, { who: email, nowMs: clock.date().getTime() });
    const work = this.#send(mail, email).finally(() => this.#underWay.delete(work));
    this.#underWay.add(work);
    return { asked: true };
  }

  async #send(mail: Mailer, email: string): Promise<void> {
    const { auth, publicOrigin, log } = this.#parts;
    try {
      const made = await auth.resetToken(email);
      if (made === undefined) return;
      const url = `${publicOrigin}/reset/${made.token}`;
      // To the address of the account, not to what was typed.
      await mail.send({ to: made.email, ...resetMail({ by: 'the door', url, days: LINK_DAYS }) });
    } catch (error) {
      log.trouble('a reset was not mailed', error);
    }
  }
}
