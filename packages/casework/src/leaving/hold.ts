import { toDate } from '../pipeline/case.ts';
import type { World } from '../office.ts';
import type { ParcelRef } from './parts.ts';

/** For so long nobody else takes what is worked on; each word of progress begins it anew. */
const HELD_MS = 120_000;
/** A screen is told no oftener. */
const TOLD_MS = 1_000;

/** Somebody else went on with it, because this process was silent for too long. */
export class Lost extends Error {}
/** The process is leaving: whoever comes next goes on. */
export class Interrupted extends Error {}

/** The hold of one worker on one file. */
export class Hold {
  readonly #world: World;
  readonly #ref: ParcelRef;
  readonly #goesOn: () => boolean;
  #until: Date;
  #toldMs = 0;
  private constructor(world: World, ref: ParcelRef, held: { until: Date; goesOn: () => boolean }) {
    this.#world = world;
    this.#ref = ref;
    this.#until = held.until;
    this.#goesOn = held.goesOn;
  }

  /** Nothing when there is nothing to do, or another has it. */
  static async take(world: World, ref: ParcelRef, goesOn: () => boolean): Promise<Hold | undefined> {
    const { tenantId, id } = ref;
    const now = toDate(world.now());
    const until = new Date(now.getTime() + HELD_MS);
    const { count } = await world.database.inTenant(tenantId, (tx) =>
      tx.parcel.updateMany({
        where: { tenantId, id, state: { in: ['waiting', 'working'] }, nextAt: { lte: now } },
        data: { state: 'working', nextAt: until, tries: { increment: 1 } },
      }),
    );
    return count === 1 ? new Hold(world, ref, { until, goesOn }) : undefined;
  }

  /** Says how far it is, and keeps it. @throws Lost, Interrupted */
  async say(step: string, done: number, total: number): Promise<void> {
    if (!this.#goesOn()) throw new Interrupted('The process is leaving.');
    const nowMs = performance.now();
    if (done !== total && done !== 0 && nowMs - this.#toldMs < TOLD_MS) return;
    this.#toldMs = nowMs;
    await this.#change({ step, done, total });
  }

  /** Lets go of it, for the next to take at once. */
  async letGo(): Promise<void> {
    const { tenantId, id } = this.#ref;
    await this.#world.database.inTenant(tenantId, (tx) =>
      tx.parcel.updateMany({
        where: { tenantId, id, state: 'working', nextAt: this.#until },
        data: { nextAt: toDate(this.#world.now()) },
      }),
    );
  }

  async #change(to: { step: string; done: number; total: number }): Promise<void> {
    const { tenantId, id } = this.#ref;
    // Two words within a millisecond would bear one time.
    const until = new Date(Math.max(toDate(this.#world.now()).getTime() + HELD_MS, this.#until.getTime() + 1));
    const { count } = await this.#world.database.inTenant(tenantId, (tx) =>
      tx.parcel.updateMany({
        where: { tenantId, id, state: 'working', nextAt: this.#until },
        data: { ...to, nextAt: until },
      }),
    );
    if (count !== 1) throw new Lost('Another worker went on with it.');
    this.#until = until;
  }
}
