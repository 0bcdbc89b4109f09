/** A line that loses, doubles, delays and cuts short, by chance. */
import { SignedOut } from '@ullage/fieldstore';
import type { Batch, Office } from '@ullage/fieldstore';
import type { PullAnswer, PullAsked, PushAnswer } from '@ullage/contracts';
import type { Chance } from './chance.ts';

/** The office at the other end. */
export interface FarEnd {
  push(userId: string, batch: Batch, upTo?: number): PushAnswer | Promise<PushAnswer>;
  pull(userId: string, asked: PullAsked): PullAnswer | Promise<PullAnswer>;
  readVisit(userId: string, id: string): unknown;
}
export class Lost extends Error {}

export class Line {
  readonly #far: FarEnd;
  readonly #chance: Chance;
  /** Pushes that are still on their way, or come a second time. */
  readonly #late: (() => unknown)[] = [];
  bad = true;
  constructor(far: FarEnd, chance: Chance) {
    this.#far = far;
    this.#chance = chance;
  }
  /** What was on its way comes, in whatever order. */
  async deliver(): Promise<void> {
    while (this.#late.length > 0) await this.#late.splice(this.#chance.upTo(this.#late.length), 1)[0]!();
  }
  async deliverOne(): Promise<void> {
    if (this.#late.length > 0) await this.#late.splice(this.#chance.upTo(this.#late.length), 1)[0]!();
  }

  /** As a device has it. @param signedIn whose session it is, if it has one */
  officeOf(signedIn: () => string | undefined): Office {
    const who = (): string => {
      const userId = signedIn();
      if (userId === undefined) throw new SignedOut();
      return userId;
    };
    return {
      push: (batch) => this.#push(who(), batch),
      pull: (asked) => this.#ask(() => this.#far.pull(who(), asked)),
      readVisit: (id) => this.#ask(() => this.#far.readVisit(who(), id)),
      namePhoto: () => Promise.reject(new Error('no photos here')),
      sendPart: () => Promise.reject(new Error('no photos here')),
    };
  }

  async #ask<T>(work: () => T): Promise<Awaited<T>> {
    if (this.bad && this.#chance.once(8)) throw new Lost('the question');
    const answer = await work();
    if (this.bad && this.#chance.once(8)) throw new Lost('the answer');
    return answer;
  }

  async #push(userId: string, batch: Batch): Promise<PushAnswer> {
    const go = () => this.#far.push(userId, batch);
    if (!this.bad) return go();
    switch (this.#chance.upTo(12)) {
      case 0:
        throw new Lost('the question');
      case 1:
        this.#late.push(go);
        throw new Lost('still on its way');
      case 2:
        await this.#far.push(userId, batch, this.#chance.upTo(batch.commands.length + 1));
        throw new Lost('the office went down in the middle');
      case 3:
        await go();
        throw new Lost('the answer');
      case 4:
        await go();
        return go();
      case 5:
        this.#late.push(go);
        return go();
      case 6: {
        const answer = await go();
        return { ...answer, answers: answer.answers.filter(() => this.#chance.once(2)) };
      }
      case 7: {
        const answer = await go();
        return { ...answer, answers: answer.answers.toReversed() };
      }
      default:
        return go();
    }
  }
}
