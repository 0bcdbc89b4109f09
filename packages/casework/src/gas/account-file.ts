/** One gas account as it is in the database: its timeline, and what the books and the doubts say so far. */
import { standingOf } from '@ullage/gasbook';
import type { Flow, Outcome, Timeline } from '@ullage/gasbook';
import { circuitTimeline } from './circuit-timeline.ts';
import { cylinderTimeline } from './cylinder-timeline.ts';
import { carriedOf, doubtRows } from './doubt-rows.ts';
import type { DoubtRow } from './doubt-rows.ts';
import type { GasFact, Source } from './gas-facts.ts';
import { movementsOf } from './movement-rows.ts';
import type { BookedMovement } from './movement-rows.ts';

export interface AccountFile {
  readonly accountId: string;
  readonly subject: { readonly kind: 'cylinder' | 'circuit'; readonly id: string };
  readonly timeline: Timeline;
  readonly facts: readonly GasFact[];
  /** All of the account's, reversals included. */
  readonly movements: readonly BookedMovement[];
  /** What its facts moved, by fact: primary movements that stand. */
  readonly primary: ReadonlyMap<string, readonly BookedMovement[]>;
  readonly doubts: readonly DoubtRow[];
}

/** An account, with what follows for it. */
export interface Derived {
  readonly file: AccountFile;
  readonly outcome: Outcome;
}

export async function accountFile(
  source: Source,
  { accountId, serviceLoss }: { accountId: string; serviceLoss: string },
): Promise<AccountFile> {
  const { tx, tenantId } = source;
  const row = await tx.gasAccount.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id: accountId } } });
  const { subject, timeline, facts } = await timelineOf(source, row, serviceLoss);
  const movements = await movementsOf(tx, tenantId, [accountId]);
  const primary = standingOf(movements).filter(({ derived }) => derived === undefined);
  const drew = timeline.entries.flatMap(({ draws, factId }) => (draws ? [factId] : []));
  return {
    accountId,
    subject,
    timeline,
    facts,
    movements,
    primary: Map.groupBy(primary, ({ factId }) => factId ?? ''),
    doubts: await doubtRows(source, { accountId, via: drew }),
  };
}

interface AccountRow {
  readonly id: string;
  readonly circuitId: string | null;
  readonly cylinderId: string | null;
}
async function timelineOf(source: Source, { id: account, circuitId, cylinderId }: AccountRow, serviceLoss: string) {
  if (circuitId !== null) {
    const { timeline, facts } = await circuitTimeline(source, { circuitId, account, serviceLoss });
    const subject = { kind: 'circuit', id: circuitId } as const;
    return { subject, timeline: { of: 'circuit', ...timeline } as const, facts };
  }
  const id = cylinderId ?? '';
  const { timeline, facts } = await cylinderTimeline(source, { cylinderId: id, account });
  const subject = { kind: 'cylinder', id } as const;
  return { subject, timeline: { of: 'cylinder', ...timeline } as const, facts };
}

/** What went by each fact of the account, as the books have it now. */
export const flowsOf = ({ primary, doubts }: AccountFile): [string, Flow][] =>
  [...primary].flatMap(([factId, postings]) => {
    const [first] = postings;
    return first ? [[factId, { from: first.from, to: first.to, postings, doubts: carriedOf(doubts, factId) }]] : [];
  });
