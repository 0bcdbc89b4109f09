import { AccountReplay } from './account-replay.ts';
import type { Act, Outcome } from './account-replay.ts';
import type { World } from './cylinder.ts';
import type { Holding } from './holding.ts';
import { inOrder } from './timeline.ts';
import type { Instant } from '@ullage/units';

/** The technician's own word on whether the charge reached full. */
export type ReachedFull = 'yes' | 'no' | 'unknown';

/**
 * A fact on a circuit's timeline. Gas that it brought in is found among the flows; a past addition without mass is left
 * out.
 */
export type CircuitEntry =
  | (Act & { readonly kind: 'service-loss' })
  | (Act & { readonly kind: 'decommissioning' })
  /** `whole`: everything was taken out, not only what an isolated part held. */
  | (Act & { readonly kind: 'recovery'; readonly whole: boolean })
  | (Act & { readonly kind: 'charge'; readonly reachedFull: ReachedFull })
  /** Said apart from a charge. */
  | (Act & { readonly kind: 'statement'; readonly reachedFull: ReachedFull })
  /** First readings: nothing but air inside, where it was found flat. */
  | (Act & { readonly kind: 'readings'; readonly flat: boolean })
  | (Act & { readonly kind: 'vacuum'; readonly held: boolean });

/** Full charge in whole grams from an instant on; of two from one instant the one with the later id holds. */
export interface FullCharge {
  readonly id: string;
  readonly from: Instant;
  readonly grams: number;
}

export interface CircuitTimeline {
  readonly account: string;
  /** The circuit's own refrigerant, the customer who owns it, `in-use`. */
  readonly holding: Holding;
  /** Dated history; empty while the full charge is not known. */
  readonly fullCharges: readonly FullCharge[];
  /** `empty` for a new installation that is charged on site; else it is assumed to have been full. */
  readonly opening: 'assumed-full' | 'empty';
  readonly entries: readonly CircuitEntry[];
}

/** The full charge at an instant; before the first known one, the first; undefined when none is known. */
export function fullGramsAt(fullCharges: readonly FullCharge[], at: Instant): number | undefined {
  const dated = [...fullCharges].sort((a, b) => (a.from + a.id < b.from + b.id ? -1 : 1));
  return (dated.findLast((full) => full.from <= at) ?? dated[0])?.grams;
}

/** A charge's own statement is a step by itself, so that it comes after every other charge of the same instant. */
function withStatements(entries: readonly CircuitEntry[]): CircuitEntry[] {
  return entries.flatMap((entry): CircuitEntry[] => {
    if (entry.kind !== 'charge') return [entry];
    const { factId, happenedAt, reachedFull } = entry;
    return [entry, { kind: 'statement', factId, happenedAt, reachedFull }];
  });
}

/** Facts that only say something of the gas, and change nothing in the books. */
const isEvidence = ({ kind }: CircuitEntry): boolean => kind === 'readings' || kind === 'vacuum';

/**
 * What follows from a circuit's timeline, the same whatever the order in which its facts arrived: the full charge
 * assumed at its first event; the loss that a charge to full brings to light, at that charge's instant; what was taken
 * out, in proportion, and beyond the books; and the rest at decommissioning. Nothing follows from `no` or `unknown`.
 */
export function replayCircuit(timeline: CircuitTimeline, { outside, flows }: World): Outcome {
  const entries = inOrder(withStatements(timeline.entries));
  const replay = new AccountReplay(timeline.account, { discrepancy: outside.discrepancy, flows });
  const first = entries.find((entry) => !isEvidence(entry));
  if (first && timeline.opening === 'assumed-full')
    replay.gas.gain(timeline.holding, {
      moment: AccountReplay.moment(first, 'opening'),
      cause: 'opening-assumed-full',
      against: outside.opening,
      grams: fullGramsAt(timeline.fullCharges, first.happenedAt) ?? 0,
    });
  const circuit = new Circuit(replay, { timeline, world: { outside, flows } });
  for (const entry of entries) circuit.go(entry);
  return replay.outcome();
}

class Circuit {
  readonly #replay: AccountReplay;
  readonly #timeline: CircuitTimeline;
  readonly #world: World;
  /** Everything is out: a vacuum that holds then leaves nothing of the earlier gas. */
  #isEmptied = false;

  constructor(replay: AccountReplay, { timeline, world }: { timeline: CircuitTimeline; world: World }) {
    this.#replay = replay;
    this.#timeline = timeline;
    this.#world = world;
  }

  go(entry: CircuitEntry): void {
    switch (entry.kind) {
      case 'recovery':
      case 'charge':
      case 'service-loss':
      case 'readings':
        this.#move(entry);
        return;
      case 'vacuum':
        if (entry.held && this.#isEmptied) this.#replay.doubts.end(entry.factId);
        return;
      case 'statement':
        if (entry.reachedFull === 'yes') this.#full(entry);
        return;
      case 'decommissioning':
        // To atmosphere, not discrepancy: what the books still hold and nobody recovered has leaked since the circuit was
        // last known full, or is lost when it is scrapped (our reading: emitted is what was held less what was recovered).
        this.#level(entry, { grams: 0, cause: 'decommissioned' });
        return;
      default:
        entry satisfies never;
    }
  }

  #move(entry: Extract<CircuitEntry, { kind: 'recovery' | 'charge' | 'service-loss' | 'readings' }>): void {
    this.#replay.note(entry);
    const isRecovery = entry.kind === 'recovery';
    this.#replay.move(entry, isRecovery ? 'recovered-more-than-booked' : 'released-more-than-booked');
    if (entry.kind === 'charge') this.#isEmptied = false;
    if (entry.kind === 'readings') this.#isEmptied ||= entry.flat;
    if (isRecovery) this.#isEmptied ||= entry.whole;
  }

  #full(entry: CircuitEntry): void {
    const grams = fullGramsAt(this.#timeline.fullCharges, entry.happenedAt);
    if (grams !== undefined) this.#level(entry, { grams, cause: 'loss-found-at-full-charge' });
  }

  #level(
    entry: CircuitEntry,
    { grams, cause }: { grams: number; cause: 'loss-found-at-full-charge' | 'decommissioned' },
  ): void {
    const { atmosphere, discrepancy } = this.#world.outside;
    this.#replay.gas.level(grams, {
      moment: AccountReplay.moment(entry, 'level'),
      surplus: { cause, to: atmosphere },
      deficit: { cause: 'books-short-of-full-charge', from: discrepancy },
      whenEmpty: this.#timeline.holding,
    });
  }
}
