/** The books as an office keeps them, for tests: facts come in or are corrected, and every account is derived again. */
import { correct, enter, reconcile, replayCircuit, replayCylinder, reverse, standingOf } from '../index.ts';
import type {
  CircuitEntry,
  CircuitTimeline,
  CylinderEntry,
  CylinderTimeline,
  DerivedPosting,
  Movement,
  OutsideAccounts,
  Posting,
} from '../index.ts';

export const outside: OutsideAccounts = {
  opening: 'opening',
  supplier: 'supplier',
  atmosphere: 'atmosphere',
  discrepancy: 'discrepancy',
};

type WithoutMovements<E> = E extends { readonly movements: readonly Posting[] } ? Omit<E, 'movements'> : E;

/** One fact: the primary movements it gives, and what it adds to the timelines of the accounts it touches. */
export interface Fact {
  readonly movements: readonly Posting[];
  readonly circuits?: Readonly<Record<string, WithoutMovements<CircuitEntry>>>;
  readonly cylinders?: Readonly<Record<string, WithoutMovements<CylinderEntry>>>;
}

export interface Premises {
  readonly circuits: Readonly<Record<string, Omit<CircuitTimeline, 'account' | 'entries'>>>;
  readonly cylinders: Readonly<Record<string, Omit<CylinderTimeline, 'account' | 'entries'>>>;
}

const touching = (account: string, movements: readonly Posting[]): readonly Posting[] =>
  movements.filter((movement) => movement.from === account || movement.to === account);

/** Everything that a replay of all accounts derives from these facts. */
export function deriveAll(
  facts: readonly Fact[],
  { circuits, cylinders }: Premises,
): readonly { readonly account: string; readonly wanted: readonly DerivedPosting[] }[] {
  const ofCircuit = (account: string): CircuitEntry[] =>
    facts.flatMap((fact) => {
      const entry = fact.circuits?.[account];
      return entry ? [{ ...entry, movements: touching(account, fact.movements) } as CircuitEntry] : [];
    });
  const ofCylinder = (account: string): CylinderEntry[] =>
    facts.flatMap((fact) => {
      const entry = fact.cylinders?.[account];
      return entry ? [{ ...entry, movements: touching(account, fact.movements) }] : [];
    });
  return [
    ...Object.entries(circuits).map(([account, circuit]) => ({
      account,
      wanted: replayCircuit({ ...circuit, account, entries: ofCircuit(account) }, outside),
    })),
    ...Object.entries(cylinders).map(([account, cylinder]) => ({
      account,
      wanted: replayCylinder({ ...cylinder, account, entries: ofCylinder(account) }, outside),
    })),
  ];
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

export class Office {
  readonly ledger: Movement[] = [];
  readonly #facts = new Map<string, Fact>();
  readonly #entered = new Map<string, readonly Movement[]>();
  readonly #premises: Premises;
  #serial = 0;

  constructor(premises: Premises) {
    this.#premises = premises;
  }

  /** Enters a fact, or corrects the one of that id; then derives everything again. */
  put(id: string, fact: Fact): void {
    const before = this.#entered.get(id) ?? [];
    const right = fact.movements.map((posting): Movement => ({ ...posting, ...this.#stamp() }));
    this.ledger.push(
      ...before.flatMap((wrong, i) => correct({ wrong, right: right[i] ?? null, reversal: this.#stamp() })),
      ...right.slice(before.length),
    );
    this.#entered.set(
      id,
      right.map((movement, i) => (this.ledger.includes(movement) ? movement : (before[i] ?? movement))),
    );
    this.#facts.set(id, fact);
    this.derive();
  }

  derive(): void {
    for (const { account, wanted } of deriveAll([...this.#facts.values()], this.#premises)) {
      const { reverse: wrong, post } = reconcile({ account, wanted, standing: this.ledger });
      this.ledger.push(...wrong.map((movement) => reverse(movement, this.#stamp())));
      this.ledger.push(...post.map((posting) => enter(posting, this.#stamp())));
    }
  }

  /** What stands, without ids and recording times, in one order: equal for books that say the same. */
  standing(): string[] {
    return contents(standingOf(this.ledger));
  }

  #stamp(): { id: string; recordedAt: string } {
    this.#serial += 1;
    return { id: `m${this.#serial}`, recordedAt: `2026-05-02T00:00:00.${String(this.#serial).padStart(3, '0')}Z` };
  }
}
