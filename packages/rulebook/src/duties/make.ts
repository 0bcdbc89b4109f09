/** Puts a duty together: key, state and what all duties share. */
import type { Day, Instant } from '@ullage/units';
import type { Edition } from '../edition.ts';
import { isKind } from '../placed.ts';
import type { Placed } from '../placed.ts';
import type { Case } from '../rate.ts';
import type { Duty, DutyKind, DutyState } from '../types.ts';
import type { Due } from './clock.ts';

export interface DutyDraft {
  readonly kind: DutyKind;
  readonly episode: string;
  readonly number: number;
  readonly edition: Edition;
  readonly clause: string;
  readonly sinceAt: Instant;
  readonly opensAt?: Instant;
  readonly due: Due | undefined;
  /** What discharged it, or undefined while something is missing. */
  readonly evidence: readonly Placed[] | undefined;
  /** The day that counts for "late", where it is not the day of the last evidence. */
  readonly doneOn?: Day;
  /** Why it no longer follows. */
  readonly withdrawn?: string;
  readonly leakIds?: readonly string[];
  readonly everyMonths?: number;
  readonly provisional?: boolean;
  readonly why: string;
  readonly flags?: readonly string[];
}

function stateOf({ evidence, due, withdrawn, doneOn }: DutyDraft, retired: boolean): DutyState {
  if (evidence) {
    const day = doneOn ?? evidence.reduce((latest, placed) => (placed.day > latest ? placed.day : latest), '');
    return due && day > due.on ? 'discharged-late' : 'discharged';
  }
  if (withdrawn !== undefined || retired) return 'withdrawn';
  if (!due) return 'not-yet-known';
  return due.suspended ? 'suspended' : 'open';
}

/** The last time the owner was told, or declined, since the duty arose. */
function owner(of: Case, sinceAt: Instant): Pick<Duty, 'ownerToldAt' | 'ownerDeclinedAt'> {
  const lastAt = (kind: 'owner-told' | 'owner-declined') =>
    of.events.filter(isKind(kind)).findLast((placed) => placed.at >= sinceAt)?.at;
  const [told, declined] = [lastAt('owner-told'), lastAt('owner-declined')];
  return {
    ...(told !== undefined && { ownerToldAt: told }),
    ...(declined !== undefined && { ownerDeclinedAt: declined }),
  };
}

const isRetired = (of: Case, { kind, sinceAt }: DutyDraft): boolean =>
  kind !== 'chronic-report' && of.events.some(({ event, at }) => event.kind === 'retired' && at >= sinceAt);

function whyOf({ why, withdrawn }: DutyDraft, state: DutyState): string {
  return state === 'withdrawn' ? (withdrawn ?? 'The circuit was retired.') : why;
}

/** Fields that a duty has or has not. */
function optionalFields({
  opensAt,
  leakIds,
  everyMonths,
}: DutyDraft): Pick<Duty, 'opensAt' | 'leakIds' | 'everyMonths'> {
  return {
    ...(leakIds && { leakIds }),
    ...(opensAt !== undefined && { opensAt }),
    ...(everyMonths !== undefined && { everyMonths }),
  };
}

export function makeDuty(of: Case, draft: DutyDraft): Duty {
  const { edition, kind, episode, number, due, evidence = [] } = draft;
  const state = stateOf(draft, isRetired(of, draft));
  const caveat = edition.useCaveats[of.input.use];
  return {
    key: [edition.rulebook, kind, episode, number].join('|'),
    kind,
    episode,
    number,
    ...optionalFields(draft),
    rulebook: edition.rulebook,
    rulebookVersion: edition.version,
    clause: draft.clause,
    responsible: 'owner-or-operator',
    sinceAt: draft.sinceAt,
    dueAt: due?.at ?? null,
    dueOn: due?.on ?? null,
    provisional: state === 'open' && Boolean(draft.provisional),
    state,
    dischargedBy: evidence.map((placed) => placed.event.id),
    ...owner(of, draft.sinceAt),
    why: whyOf(draft, state),
    flags: [...(draft.flags ?? []), ...(caveat ? [caveat.flag] : [])],
  };
}
