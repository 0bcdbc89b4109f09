import type { ParcelRef } from '@ullage/casework';
import { Inject, Injectable } from '@nestjs/common';
import { PARTS } from '../../parts.ts';
import type { Parts } from '../../parts.ts';
import { Round } from '../../relay/round.ts';

const AT_ONCE = 20;
/** A large file takes minutes: one firm's holds up no other's, and all together leave the rest of the worker its share. */
const SIDE_BY_SIDE = 2;

/** Makes files of everything and takes them over, apart from the queue: a row is the order, and its lease. */
@Injectable()
export class Parcels {
  readonly #parts: Parts;
  readonly #round: Round;
  #stopped = false;

  constructor(@Inject(PARTS) parts: Parts) {
    this.#parts = parts;
    this.#round = new Round(() => this.workDue(), parts.pace.pollMs);
  }
  start(): void {
    this.#round.start();
  }
  /** Lets go of what is under way: whoever comes next goes on with it. */
  stop(): Promise<void> {
    this.#stopped = true;
    return this.#round.stop();
  }

  async workDue(): Promise<void> {
    const { everyTenant, night, clock, log } = this.#parts;
    try {
      const now = clock.date();
      for (const ref of await everyTenant.expiredParcels(now, AT_ONCE)) await night.expireParcel(ref);
      const next = (await everyTenant.parcels(now, AT_ONCE)).values();
      const lane = async (): Promise<void> => {
        for (const ref of next) if (!this.#stopped) await this.#work(ref);
      };
      await Promise.all(Array.from({ length: SIDE_BY_SIDE }, lane));
    } catch (error) {
      log.trouble('a round of files broke off', error);
    }
  }

  /** One tenant's fault keeps no other from its turn. */
  async #work(ref: ParcelRef): Promise<void> {
    const { night, log } = this.#parts;
    await night
      .workParcel(ref, () => !this.#stopped)
      .catch((error: unknown) =>
        log.trouble('a file was not made or taken over', error, { tenant: ref.tenantId, parcel: ref.id }),
      );
  }
}
