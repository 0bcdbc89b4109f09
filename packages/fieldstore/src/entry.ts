/** A command on this device and what has become of it: pure, one step at a time. */
import type { CommandAnswer, CommandStanding, Problem } from '@ullage/contracts';

/** As it goes over the wire. Never changed once made: a retry is the same command, byte for byte. */
export interface SealedEnvelope {
  readonly id: string;
  readonly schema: string;
  readonly device: string;
  readonly deviceSeq: number;
  /** By the device's clock as it was then; the office keeps its own time beside it. */
  readonly happenedAt: string;
  readonly dependsOn: readonly string[];
  readonly body: unknown;
}
/**
 * `waiting` to be sent. `held`: the office has it, and waits for what it depends on. `refused`: with its reason, for the
 * person to put right, hand over or withdraw. `handed-over`: refused, and the office looks after it. `withdrawing`: the
 * word that takes it back is on its way. `left-out`: the office has decided against it.
 */
export type EntryState = 'waiting' | 'held' | 'refused' | 'handed-over' | 'withdrawing' | 'left-out';

export interface Entry {
  readonly envelope: SealedEnvelope;
  /** One line for a list of what was recorded. */
  readonly said: string;
  /** Ids of the records it is about: they stay on the device while it has no final answer. */
  readonly about: readonly string[];
  readonly state: EntryState;
  readonly problem?: Problem;
  /** The office could not read it and has not kept it: this is the only copy. */
  readonly onlyHere?: true;
  /** How far the device's clock was off when it was sent, as the office noticed. */
  readonly skewSeconds?: number;
  readonly asks?: CommandAnswer['asks'];
  /** The command that takes this one back. */
  readonly withdrawnBy?: string;
  /** The command that this one takes back. */
  readonly withdraws?: string;
}
/** An entry that needs no further answer moves from the outbox to what was sent. */
export type Settled = { readonly final: boolean; readonly entry: Entry };

/** Its key in the outbox and in what was sent: in the order of the device's own numbers. */
export const keyOf = ({ envelope }: Pick<Entry, 'envelope'>): string => String(envelope.deviceSeq).padStart(12, '0');

const refusedState = (entry: Entry): EntryState => {
  if (entry.withdrawnBy !== undefined) return 'withdrawing';
  return entry.state === 'handed-over' ? 'handed-over' : 'refused';
};

/** Takes in what the office answered to the command itself. */
export function settle(entry: Entry, answer: CommandAnswer): Settled {
  const { problem, asks, clockSkewSeconds } = answer;
  const skew = clockSkewSeconds === undefined ? {} : { skewSeconds: clockSkewSeconds };
  switch (answer.outcome) {
    case 'applied':
    case 'already-applied':
      return { final: true, entry: { ...entry, ...skew, asks } };
    case 'waiting':
      return { final: false, entry: { ...entry, state: entry.withdrawnBy === undefined ? 'held' : 'withdrawing' } };
    case 'needs-attention': {
      const only = answer.id === '' ? { onlyHere: true as const } : {};
      const reason = problem === undefined ? {} : { problem };
      return { final: false, entry: { ...entry, ...reason, ...only, state: refusedState(entry) } };
    }
  }
}

/** Takes in how a command stands that the office had before. One it does not know any more is sent again. */
export function stand(entry: Entry, standing: CommandStanding): Settled {
  switch (standing.state) {
    case 'applied':
      return { final: true, entry };
    case 'waiting':
      return entry.state === 'withdrawing'
        ? { final: false, entry }
        : { final: false, entry: { ...entry, state: 'held' } };
    case 'attention':
      return {
        final: false,
        entry: { ...entry, ...(standing.problem ? { problem: standing.problem } : {}), state: refusedState(entry) },
      };
    case 'left-out':
      return entry.state === 'withdrawing'
        ? { final: false, entry }
        : { final: false, entry: { ...entry, state: 'left-out' } };
    case 'unknown':
      return entry.onlyHere ? { final: false, entry } : { final: false, entry: { ...entry, state: 'waiting' } };
  }
}

/** After a restore the office may have lost any of it: everything is said again, and what it knows it knows. */
export const again = (entry: Entry): Entry => (entry.onlyHere ? entry : { ...entry, state: 'waiting' });

/** Whom a person has to be shown: everything that was not simply taken. */
export const isRefusal = ({ state }: Entry): boolean =>
  state === 'refused' || state === 'handed-over' || state === 'left-out';
/** What a sign-out would leave behind: said to nobody yet, or with this person to decide. */
export const isUnsent = ({ state }: Entry): boolean =>
  state === 'waiting' || state === 'withdrawing' || state === 'refused';
