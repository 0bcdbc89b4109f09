/** The books as an office keeps them, for tests: facts come in or are corrected, and what they touch is derived again. */
import { enter, follow, reconcile, reconcileFact, reverse, standingOf } from '../index.ts';
import type {
  CircuitEntry,
  CircuitTimeline,
  CylinderEntry,
  CylinderTimeline,
  Doubt,
  Draw,
  Flow,
  Followed,
  Movement,
  OutsideAccounts,
  Posting,
  Timeline,
} from '../index.ts';

export const outside: OutsideAccounts = {
  opening: 'opening',
  supplier: 'supplier',
  reclaimer: 'reclaimer',
  destroyer: 'destroyer',
  atmosphere: 'atmosphere',
  discrepancy: 'discrepancy',
};
const BEYOND = new Set([...Object.values(outside), 'other-party', 'service-loss']);

type WithoutDraws<E> = E extends unknown ? Omit<E, 'draws'> : never;

/** One fact: what it drew from which account, what came from outside, and what it adds to the timelines it touches. */
export interface Fact {
  readonly draws?: Readonly<Record<string, Draw>>;
  readonly given?: readonly Posting[];
  readonly circuits?: Readonly<Record<string, WithoutDraws<CircuitEntry>>>;
  readonly cylinders?: Readonly<Record<string, WithoutDraws<CylinderEntry>>>;
}

export interface Premises {
  readonly circuits: Readonly<Record<string, Omit<CircuitTimeline, 'account' | 'entries'>>>;
  readonly cylinders: Readonly<Record<string, Omit<CylinderTimeline, 'account' | 'entries'>>>;
}

const withDraw = <E extends object>(entry: E, draw: Draw | undefined): E => (draw ? { ...entry, draws: draw } : entry);

export function timelineOf(account: string, facts: readonly Fact[], { circuits, cylinders }: Premises): Timeline {
  const circuit = circuits[account];
  if (circuit) {
    const entries = facts.flatMap((fact) => {
      const entry = fact.circuits?.[account];
      return entry ? [withDraw(entry as CircuitEntry, fact.draws?.[account])] : [];
    });
    return { of: 'circuit', ...circuit, account, entries };
  }
  const cylinder = cylinders[account];
  if (!cylinder) throw new Error(`no account ${account}`);
  const entries = facts.flatMap((fact) => {
    const entry = fact.cylinders?.[account];
    return entry ? [withDraw(entry as CylinderEntry, fact.draws?.[account])] : [];
  });
  return { of: 'cylinder', ...cylinder, account, entries };
}

const touched = (fact: Fact | undefined): string[] => [
  ...Object.keys(fact?.circuits ?? {}),
  ...Object.keys(fact?.cylinders ?? {}),
];

/** A flow from outside, as the books have it before anything is derived. */
function given(fact: Fact): Flow | undefined {
  const [first] = fact.given ?? [];
  return first && { from: first.from, to: first.to, postings: fact.given ?? [], doubts: [] };
}

/** Everything that follows from these facts, worked out at once from nothing. */
export function deriveAll(facts: Readonly<Record<string, Fact>>, premises: Premises): Followed {
  const accounts = [...Object.keys(premises.circuits), ...Object.keys(premises.cylinders)];
  const flows = new Map(
    Object.entries(facts).flatMap(([id, fact]): [string, Flow][] => {
      const flow = given(fact);
      return flow ? [[id, flow]] : [];
    }),
  );
  return follow({
    timelines: new Map(accounts.map((account) => [account, timelineOf(account, Object.values(facts), premises)])),
    changed: accounts,
    beyond: BEYOND,
    world: { outside, flows },
  });
}

/** What postings say, apart from ids and recording times; sorted. */
export const contents = (postings: readonly (Posting & Partial<Movement>)[]): string[] =>
  postings
    .map((p) =>
      JSON.stringify([
        [p.happenedAt, p.refrigerant, p.grams, p.from, p.to],
        [p.fromOwner, p.fromState, p.toOwner, p.toState],
        p.derived ? [p.derived.account, p.derived.cause, p.derived.key, p.derived.fromFact] : null,
      ]),
    )
    .sort();

/** What doubts say, in one order. */
export const doubtLines = (doubts: Iterable<Doubt>): string[] =>
  [...doubts].map((doubt) => JSON.stringify(doubt)).sort();

export type Booked = Movement & { readonly factId: string | null };

export class Office {
  readonly ledger: Booked[] = [];
  readonly doubts = new Map<string, readonly Doubt[]>();
  readonly facts = new Map<string, Fact>();
  /** Accounts gone through at the last derivation. */
  gone: string[] = [];
  readonly #carried = new Map<string, Flow['doubts']>();
  readonly #premises: Premises;
  #serial = 0;

  constructor(premises: Premises) {
    this.#premises = premises;
  }

  /** Enters a fact, or corrects the one of that id; then derives what it touches. */
  put(id: string, fact: Fact): void {
    const changed = new Set([...touched(this.facts.get(id)), ...touched(fact)]);
    const standing = this.#primary(id).filter(({ from }) => BEYOND.has(from));
    const { reverse: wrong, post } = reconcileFact({ wanted: fact.given ?? [], standing });
    this.ledger.push(
      ...wrong.map((movement) => reverse(movement, this.#stamp())),
      ...post.map((posting) => ({ ...posting, ...this.#stamp(), factId: id })),
    );
    this.facts.set(id, fact);
    this.derive(changed);
  }

  derive(
    changed: Iterable<string> = [...Object.keys(this.#premises.circuits), ...Object.keys(this.#premises.cylinders)],
  ): void {
    const { outcomes } = this.#followed(new Set(changed));
    this.gone = [...outcomes.keys()].sort();
    for (const [account, { derived, drawn, doubts }] of outcomes) {
      const { reverse: wrong, post } = reconcile({ account, wanted: derived, standing: this.ledger });
      this.ledger.push(
        ...wrong.map((movement) => reverse(movement, this.#stamp())),
        ...post.map((posting) => ({ ...enter(posting, this.#stamp()), factId: null })),
      );
      for (const factId of this.facts.keys()) this.#enterDrawn(account, factId, drawn.get(factId));
      this.doubts.set(account, doubts);
    }
  }

  /** What stands, without ids and recording times, in one order: equal for books that say the same. */
  standing(): string[] {
    return contents(standingOf(this.ledger));
  }

  doubtLines(): string[] {
    return doubtLines([...this.doubts.values()].flat());
  }

  /** Timelines are handed in as they are asked for, as an office does that reads them from a database. */
  #followed(changed: Set<string>): Followed {
    const timelines = new Map<string, Timeline>();
    const facts = [...this.facts.values()];
    for (;;) {
      const followed = follow({ timelines, changed, beyond: BEYOND, world: { outside, flows: this.#flows() } });
      if (followed.missing.length === 0) return followed;
      for (const account of followed.missing) timelines.set(account, timelineOf(account, facts, this.#premises));
    }
  }

  #flows(): Map<string, Flow> {
    return new Map(
      [...this.facts.keys()].flatMap((id): [string, Flow][] => {
        const postings = this.#primary(id);
        const [first] = postings;
        return first ? [[id, { from: first.from, to: first.to, postings, doubts: this.#carried.get(id) ?? [] }]] : [];
      }),
    );
  }

  #primary(id: string): Booked[] {
    return standingOf(this.ledger).filter((movement) => movement.factId === id && movement.derived === undefined);
  }

  #enterDrawn(account: string, factId: string, flow: Flow | undefined): void {
    const standing = this.#primary(factId).filter(({ from }) => from === account);
    const { reverse: wrong, post } = reconcileFact({ wanted: flow?.postings ?? [], standing });
    this.ledger.push(
      ...wrong.map((movement) => reverse(movement, this.#stamp())),
      ...post.map((posting) => ({ ...posting, ...this.#stamp(), factId })),
    );
    if (flow) this.#carried.set(factId, flow.doubts);
  }

  #stamp(): { id: string; recordedAt: string } {
    this.#serial += 1;
    return { id: `m${this.#serial}`, recordedAt: `2026-05-02T00:00:00.${String(this.#serial).padStart(3, '0')}Z` };
  }
}
