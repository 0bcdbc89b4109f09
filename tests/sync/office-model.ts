/**
 * The office as its devices see it, in memory: each command once, in one step that happens whole or not at all, with the
 * feed, what waits, what lies with a person, and backups. `equivalence.pg.test.ts` holds it against the real one.
 */
import type { CommandAnswer, CommandStanding, Problem, PullAnswer, PullAsked, PushAnswer } from '@ullage/contracts';
import type { Batch, SealedEnvelope } from '@ullage/fieldstore';

interface Kept {
  readonly text: string;
  readonly envelope: SealedEnvelope;
  readonly userId: string;
  readonly sentAt: number;
  readonly receivedAt: number;
  state: 'applied' | 'waiting' | 'attention';
  problem?: Problem;
}
export interface Visit {
  readonly id: string;
  readonly people: string[];
  readonly facts: { readonly id: string; readonly happenedAt: string }[];
}
interface State {
  epoch: number;
  readonly feed: string[];
  readonly commands: Map<string, Kept>;
  /** Command ids that lie with a person. */
  readonly attention: Set<string>;
  readonly visits: Map<string, Visit>;
  /** Grams taken from each cylinder, by command. */
  readonly charged: Map<string, { readonly cylinderId: string; readonly grams: number }>;
}
const SKEW_MS = 120_000;
const FUTURE_MS = 300_000;
const problemOf = (type: string): Problem => ({ type: `/problems/${type}`, title: type, status: 422, detail: type });

class Refused extends Error {
  readonly problem: Problem;
  constructor(type: string) {
    super(type);
    this.problem = problemOf(type);
  }
}

export class OfficeModel {
  readonly #cylinders: ReadonlySet<string>;
  readonly #now: () => number;
  #state: State;
  #epochs = 1;

  readonly #pageRows: number;
  constructor(given: {
    visits: readonly string[];
    cylinders: readonly string[];
    now: () => number;
    /** Rows of the feed in one answer. */
    pageRows: number;
  }) {
    this.#pageRows = given.pageRows;
    this.#cylinders = new Set(given.cylinders);
    this.#now = given.now;
    this.#state = {
      epoch: 1,
      feed: [],
      commands: new Map(),
      attention: new Set(),
      visits: new Map(given.visits.map((id) => [id, { id, people: [], facts: [] }])),
      charged: new Map(),
    };
  }
  get state(): Readonly<State> {
    return this.#state;
  }
  backup(): State {
    return structuredClone(this.#state);
  }
  /** Every restore has an epoch of its own, also of one backup twice. */
  restore(backup: State): void {
    this.#epochs += 1;
    this.#state = { ...structuredClone(backup), epoch: this.#epochs };
  }

  /** @param upTo the office goes down after so many of them, having answered none */
  push(userId: string, batch: Batch, upTo = Infinity): PushAnswer {
    const sorted = batch.commands.toSorted((a, b) => a.deviceSeq - b.deviceSeq);
    const answers = sorted.slice(0, upTo).map((envelope) => this.#one(userId, envelope, Date.parse(batch.sentAt)));
    return { answers, epoch: this.#state.epoch, number: this.#state.feed.length };
  }

  pull(userId: string, asked: PullAsked): PullAnswer {
    const { epoch, feed, visits } = this.#state;
    const scope = [...visits.values()].filter(({ people }) => people.includes(userId)).map(({ id }) => id);
    const known = asked.epoch === epoch && asked.number <= feed.length;
    const reached = known ? Math.min(feed.length, asked.number + this.#pageRows) : feed.length;
    const touched = new Set(feed.slice(asked.number, reached));
    return {
      epoch,
      number: reached,
      now: new Date(this.#now()).toISOString(),
      more: reached < feed.length,
      scope,
      changed: known ? scope.filter((id) => touched.has(id)) : scope,
      standing: asked.commandIds.map((id) => this.#standingOf(userId, id)),
    };
  }
  readVisit(id: string): unknown {
    const visit = this.#state.visits.get(id);
    return visit && structuredClone(visit);
  }

  // What a desk does.
  place(visitId: string, people: readonly string[]): void {
    const visit = this.#state.visits.get(visitId)!;
    visit.people.splice(0, Infinity, ...people);
    this.#state.feed.push(visitId);
  }
  tryAgain(commandId: string): void {
    if (!this.#state.attention.delete(commandId)) return;
    this.#state.feed.push(commandId);
    const kept = this.#state.commands.get(commandId)!;
    kept.state = 'waiting';
    this.#carryOn([commandId]);
  }
  leaveOut(commandId: string): void {
    if (this.#state.attention.delete(commandId)) this.#state.feed.push(commandId);
  }

  #standingOf(userId: string, id: string): CommandStanding {
    const kept = this.#state.commands.get(id);
    if (!kept || kept.userId !== userId) return { id, state: 'unknown' };
    if (kept.state !== 'attention') return { id, state: kept.state };
    const state = this.#state.attention.has(id) ? 'attention' : 'left-out';
    return { id, state, ...(kept.problem ? { problem: kept.problem } : {}) };
  }

  #one(userId: string, envelope: SealedEnvelope, sentAt: number): CommandAnswer {
    const { id } = envelope;
    // A head that cannot be read is kept by nobody but its device.
    if (!/^[a-z-]+$/.test(envelope.schema)) return this.#answer('', 'needs-attention', problemOf('not-valid'));
    const text = JSON.stringify(envelope);
    const known = this.#state.commands.get(id);
    if (known && known.text !== text) return this.#answer(id, 'needs-attention', problemOf('command-changed'));
    const fresh: Kept = { text, envelope, userId, sentAt, receivedAt: this.#now(), state: 'waiting' };
    const kept = known ?? fresh;
    if (known?.state === 'applied') return this.#arrived(id, 'already-applied');
    if (known?.state === 'attention') return this.#answer(id, 'needs-attention', known.problem);
    try {
      // What the office can tell without looking at what it waits for.
      const happenedAt = this.#read({ ...kept, sentAt, receivedAt: this.#now() });
      this.#state.commands.set(id, kept);
      if (!this.#ready(envelope)) return this.#answer(id, 'waiting');
      this.#carryOut(kept, happenedAt);
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      this.#state.commands.set(id, kept);
      this.#refuse(kept, fault.problem);
      return this.#answer(id, 'needs-attention', fault.problem);
    }
    return this.#arrived(id, 'applied');
  }

  #arrived(id: string, outcome: 'applied' | 'already-applied'): CommandAnswer {
    this.#carryOn(this.#waitersOf(id));
    return this.#answer(id, outcome);
  }
  #answer(id: string, outcome: CommandAnswer['outcome'], problem?: Problem): CommandAnswer {
    return { id, outcome, records: [], asks: [], ...(problem ? { problem } : {}) };
  }
  #ready({ dependsOn }: SealedEnvelope): boolean {
    return dependsOn.every((id) => this.#state.commands.get(id)?.state === 'applied');
  }
  #waitersOf(id: string): string[] {
    const all = [...this.#state.commands.values()];
    return all
      .filter((one) => one.state === 'waiting' && one.envelope.dependsOn.includes(id))
      .map((one) => one.envelope.id);
  }
  #carryOn(ids: readonly string[]): void {
    for (const id of ids) {
      const kept = this.#state.commands.get(id)!;
      if (kept.state !== 'waiting' || !this.#ready(kept.envelope)) continue;
      try {
        this.#carryOut(kept, this.#read(kept));
        this.#carryOn(this.#waitersOf(id));
      } catch (fault) {
        if (!(fault instanceof Refused)) throw fault;
        this.#refuse(kept, fault.problem);
      }
    }
  }
  #refuse(kept: Kept, problem: Problem): void {
    if (kept.state === 'applied') return;
    kept.state = 'attention';
    kept.problem = problem;
    this.#state.attention.add(kept.envelope.id);
  }

  /** When it happened by the office's clock. */
  #read({ envelope, sentAt, receivedAt }: Kept): number {
    const { schema, body } = envelope;
    if (!['record-charge', 'record-safety', 'withdraw-command'].includes(schema)) throw new Refused('not-valid');
    if ((body as { visitId?: unknown }).visitId === '') throw new Refused('not-valid');
    const skew = receivedAt - sentAt;
    const happenedAt = Date.parse(envelope.happenedAt) + (Math.abs(skew) > SKEW_MS ? skew : 0);
    if (happenedAt - this.#now() > FUTURE_MS) throw new Refused('not-possible');
    return happenedAt;
  }

  #carryOut(kept: Kept, at: number): void {
    const { id, schema, body } = kept.envelope;
    if (schema === 'withdraw-command') this.#withdraw(kept.userId, (body as { commandId: string }).commandId);
    else this.#write(id, body as Body, at);
    kept.state = 'applied';
  }
  #withdraw(userId: string, commandId: string): void {
    const target = this.#state.commands.get(commandId);
    if (!target) {
      // After a restore the word that takes it back may come before it: it is then taken back before it is there.
      const nothing = { id: commandId, dependsOn: [] } as unknown as SealedEnvelope;
      const gone = { text: '', envelope: nothing, userId, sentAt: 0, receivedAt: 0, state: 'attention' } as const;
      this.#state.commands.set(commandId, { ...gone, problem: problemOf('not-possible') });
      this.#state.feed.push(commandId);
      return;
    }
    if (target.userId !== userId) throw new Refused('not-found');
    if (target.state === 'applied') throw new Refused('not-possible');
    if (target.state === 'waiting') target.problem = problemOf('not-possible');
    target.state = 'attention';
    this.#state.attention.delete(commandId);
    this.#state.feed.push(commandId);
  }
  #write(id: string, body: Body, at: number): void {
    const visit = this.#state.visits.get(body.visitId);
    if (!visit) throw new Refused('not-found');
    if (body.cylinderId !== undefined) {
      if (!this.#cylinders.has(body.cylinderId)) throw new Refused('not-found');
      const grams = Number(body.before!.value) - Number(body.after!.value);
      if (this.#state.charged.has(id)) throw new Error('the same command twice');
      this.#state.charged.set(id, { cylinderId: body.cylinderId, grams });
    }
    visit.facts.push({ id, happenedAt: new Date(at).toISOString() });
    this.#state.feed.push(body.visitId);
  }
}
interface Body {
  readonly visitId: string;
  readonly cylinderId?: string;
  readonly before?: { readonly value: string };
  readonly after?: { readonly value: string };
}
