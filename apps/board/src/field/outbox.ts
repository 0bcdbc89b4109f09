/** Commands on their way: kept on this phone from the press of a button until the server has answered. */
import type { CommandAnswer, CommandName, Problem } from '@ullage/contracts';
import type { Draft, DraftPlace } from './drafts.ts';
import { dropDraft, readDraft, writeDraft } from './drafts.ts';
import type { Keep } from './keep.ts';

/** As it goes over the wire. It is never changed once made, so that a retry is byte for byte the same command. */
export interface SealedEnvelope {
  readonly id: string;
  readonly schema: CommandName;
  readonly device: string;
  readonly deviceSeq: number;
  readonly happenedAt: string;
  readonly dependsOn: readonly string[];
  readonly body: unknown;
}
export interface Queued {
  readonly envelope: SealedEnvelope;
  readonly place: DraftPlace;
  /** What was typed, so that a refusal gives it back. */
  readonly draft: Draft;
  /** One line for the list of what was recorded. */
  readonly said: string;
  /** Ids of records this command makes: later commands that name one depend on it. */
  readonly makes: readonly string[];
  readonly state: 'waiting' | 'refused';
  readonly problem?: Problem | undefined;
}
export interface NewCommand {
  readonly kind: CommandName;
  readonly body: unknown;
  readonly happenedAt: string;
  readonly dependsOn?: readonly string[];
  readonly place: DraftPlace;
  readonly draft: Draft;
  readonly said: string;
  readonly makes?: readonly string[];
}

export interface OutboxOptions {
  readonly keep: Keep;
  readonly newId: () => string;
  /** Runs one after another over all tabs: two tabs must not take the same number. */
  readonly exclusive: <T>(work: () => T) => Promise<T>;
}

const SEQ = 'sequence';
const keyOf = (seq: number): string => `queue|${String(seq).padStart(12, '0')}`;

/** Every text inside a body; ids are found among them. */
function* textsIn(value: unknown): Generator<string> {
  if (typeof value === 'string') yield value;
  else if (typeof value === 'object' && value !== null) for (const part of Object.values(value)) yield* textsIn(part);
}

export class Outbox {
  readonly #keep: Keep;
  readonly #newId: () => string;
  readonly #exclusive: OutboxOptions['exclusive'];

  constructor({ keep, newId, exclusive }: OutboxOptions) {
    this.#keep = keep;
    this.#newId = newId;
    this.#exclusive = exclusive;
  }

  /** This phone under this person; made once. */
  get device(): string {
    const known = this.#keep.read('device');
    if (typeof known === 'string') return known;
    const made = this.#newId();
    this.#keep.write('device', made);
    return made;
  }

  /** All that has not been answered for good, in the order it was done. */
  all(): readonly Queued[] {
    return this.#keep.keys('queue|').flatMap((key) => {
      const found = this.#keep.read(key) as Queued | undefined;
      return found?.envelope ? [found] : [];
    });
  }

  /** Waiting to be sent, in order. A refused one never blocks those after it. */
  waiting(): readonly Queued[] {
    return this.all().filter((one) => one.state === 'waiting');
  }

  find(id: string): Queued | undefined {
    return this.all().find((one) => one.envelope.id === id);
  }

  /**
   * Seals a command with the next number of this device and keeps it. Pressed twice, the same draft gives the same
   * command once. @throws Error when the phone cannot keep it; the draft then stays as it is
   */
  add(command: NewCommand): Promise<Queued> {
    return this.#exclusive(() => this.find(command.draft.ids['command'] ?? '') ?? this.#seal(command));
  }

  #seal(command: NewCommand): Queued {
    const { kind, body, happenedAt, place, draft, said, makes = [] } = command;
    const last = this.#keep.read(SEQ);
    const deviceSeq = (typeof last === 'number' ? last : 0) + 1;
    const queued: Queued = {
      envelope: {
        id: draft.ids['command'] ?? this.#newId(),
        schema: kind,
        device: this.device,
        deviceSeq,
        happenedAt,
        dependsOn: this.#needs(body, command.dependsOn ?? []),
        body,
      },
      place,
      draft,
      said,
      makes,
      state: 'waiting',
    };
    // The number is used up first: after a crash in between there is a gap, never the same number twice.
    if (!this.#keep.write(SEQ, deviceSeq) || !this.#keep.write(keyOf(deviceSeq), queued))
      throw new Error('storage full');
    // What was typed is in the queue now; after a crash in between it is in both, and the form passes over its own.
    if (readDraft(this.#keep, place)?.ids['command'] === queued.envelope.id) dropDraft(this.#keep, place);
    return queued;
  }

  #needs(body: unknown, named: readonly string[]): readonly string[] {
    const texts = new Set(textsIn(body));
    const makers = this.all().filter(
      ({ makes, envelope }) => texts.has(envelope.id) || makes.some((id) => texts.has(id)),
    );
    return [...new Set([...named, ...makers.map((one) => one.envelope.id)])];
  }

  /** Takes the server's answer in. What was applied is forgotten here; what was refused is given back as a draft. */
  settle(id: string, answer: Pick<CommandAnswer, 'outcome' | 'problem'>): void {
    const queued = this.find(id);
    if (!queued) return;
    switch (answer.outcome) {
      case 'applied':
      case 'already-applied':
        this.#keep.drop(keyOf(queued.envelope.deviceSeq));
        break;
      case 'waiting':
        break;
      case 'needs-attention':
        this.#refuse(queued, answer.problem);
        break;
    }
  }

  #refuse(queued: Queued, problem: Problem | undefined): void {
    const refused: Queued = { ...queued, state: 'refused', problem };
    this.#keep.write(keyOf(queued.envelope.deviceSeq), refused);
    if (readDraft(this.#keep, queued.place) === undefined) this.giveBack(refused.envelope.id);
  }

  /** Puts a refused command's fields back into its step, under a new command id: its content is about to change. */
  giveBack(id: string): boolean {
    const queued = this.find(id);
    if (!queued || queued.state !== 'refused') return false;
    const ids = { ...queued.draft.ids, command: this.#newId() };
    const kept = writeDraft(this.#keep, queued.place, { ids, values: queued.draft.values, problem: queued.problem });
    if (kept) this.#keep.drop(keyOf(queued.envelope.deviceSeq));
    return kept;
  }
}
