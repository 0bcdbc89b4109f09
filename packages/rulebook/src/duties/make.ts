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

export function makeDuty(of: Case, draft: DutyDraft): Duty {
  const { edition, kind, episode, number, due, evidence, opensAt, leakIds, everyMonths, withdrawn } = draft;
  const retired =
    kind !== 'chronic-report' &&
    of.events.some((placed) => placed.event.kind === 'retired' && placed.at >= draft.sinceAt);
  const state = stateOf(draft, retired);
  const use = edition.useCaveats[of.input.use];
  return {
    key: [edition.rulebook, kind, episode, number].join('|'),
    kind,
    episode,
    number,
    ...(leakIds && { leakIds }),
    rulebook: edition.rulebook,
    rulebookVersion: edition.version,
    clause: draft.clause,
    responsible: 'owner-or-operator',
    sinceAt: draft.sinceAt,
    ...(opensAt !== undefined && { opensAt }),
    dueAt: due?.at ?? null,
    dueOn: due?.on ?? null,
    ...(everyMonths !== undefined && { everyMonths }),
    provisional: state === 'open' && Boolean(draft.provisional),
    state,
    dischargedBy: evidence ? evidence.map((placed) => placed.event.id) : [],
    ...owner(of, draft.sinceAt),
    why: state === 'withdrawn' ? (withdrawn ?? 'The circuit was retired.') : draft.why,
    flags: [...(draft.flags ?? []), ...(use ? [use.flag] : [])],
  };
}
