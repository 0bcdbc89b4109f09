import type { Instant } from '@ullage/units';
import { toInstant } from '../pipeline/case.ts';
import type { Work } from '../pipeline/case.ts';

type LeakState = 'open' | 'repaired' | 'verified' | 'deferred' | 'declined';
interface Step {
  readonly kind: string;
  readonly body: Record<string, unknown>;
}

/** State of a leak after one more fact: a failed test opens it again, a passed follow-up verifies it. */
function after(state: LeakState, { kind, body }: Step): LeakState {
  if (kind === 'repair') return 'repaired';
  if (kind === 'consent') {
    if (state !== 'open' && state !== 'deferred' && state !== 'declined') return state;
    if (body.decision === 'defer') return 'deferred';
    return body.decision === 'decline' || body.decision === 'top-off' ? 'declined' : 'open';
  }
  if (kind !== 'verification') return state;
  if (body.result === 'fail') return 'open';
  return body.stage === 'follow-up' ? 'verified' : state;
}

/** A test that was set aside, because what it was made with turned out to be bad, says nothing of a leak. */
export const COUNTS = { factCorrectses: { none: { kind: 'set-aside' } } } as const;

/** A repair, test or decision, as far as a leak's state follows from it. */
export interface LeakFact extends Pick<Step, 'kind'> {
  readonly happenedAt: Date | null;
  readonly body: unknown;
  readonly factRefs: readonly { readonly leakPointId: string | null }[];
}

/** State of a leak after its circuit's facts, in the order given, up to an instant. */
export function leakStateAt(
  point: { readonly id: string; readonly foundAt: Date },
  facts: readonly LeakFact[],
  until: Instant | null = null,
): LeakState {
  let state: LeakState = 'open';
  for (const fact of facts) {
    const at = fact.happenedAt && toInstant(fact.happenedAt);
    if (at !== null && at < toInstant(point.foundAt)) continue;
    if (at !== null && until !== null && at > until) continue;
    const concerns = fact.kind === 'consent' || fact.factRefs.some((ref) => ref.leakPointId === point.id);
    if (concerns) state = after(state, { kind: fact.kind, body: fact.body as Step['body'] });
  }
  return state;
}

/** The states of leak points follow from their circuits' facts; they are worked out anew, never edited. */
export async function projectLeakPoints(desk: Work, circuitIds: readonly string[]): Promise<void> {
  const { tx, tenantId } = desk;
  const where = { tenantId, circuitId: { in: [...circuitIds] } };
  const points = await tx.leakPoint.findMany({ where, orderBy: [{ circuitId: 'asc' }, { number: 'asc' }] });
  if (points.length === 0) return;
  const facts = await tx.fact.findMany({
    where: { ...where, kind: { in: ['repair', 'verification', 'consent'] }, ...COUNTS },
    include: { factRefs: true },
    orderBy: [{ happenedAt: 'asc' }, { id: 'asc' }],
  });
  const byCircuit = Map.groupBy(facts, (fact) => fact.circuitId);
  const moved = points.flatMap((point) => {
    const state = leakStateAt(point, byCircuit.get(point.circuitId) ?? []);
    return state === point.state ? [] : [{ id: point.id, state }];
  });
  for (const [state, those] of Map.groupBy(moved, (point) => point.state)) {
    const ids = those.map(({ id }) => id);
    await tx.leakPoint.updateMany({ where: { tenantId, id: { in: ids } }, data: { state } });
  }
  for (const { id } of moved) desk.changed('leak-point', id);
}
