/** Which additions are top-offs: gas that went in while nothing was proven repaired. Each says why, in words. */
import type { Instant } from '@ullage/units';
import { additionsOf } from './additions.ts';
import type { Addition, GasMove } from './additions.ts';
import { byText } from './order.ts';

export interface Repair {
  readonly factId: string;
  readonly visitId: string | null;
  readonly at: Instant;
  readonly leakIds: readonly string[];
}
export interface Verification extends Repair {
  readonly passed: boolean;
}

/** What one circuit's additions are judged by. */
export interface CircuitHistory {
  readonly moves: readonly GasMove[];
  readonly repairs: readonly Repair[];
  readonly verifications: readonly Verification[];
}

/** In falling order of what each proves: where a visit saw several repairs, the first that holds is its reason. */
const AT_REPAIR = ['verified-there', 'verified-later', 'failed-there', 'not-tested'] as const;
export type ReasonCode =
  (typeof AT_REPAIR)[number] | 'first-charge' | 'retrofit' | 'seasonal' | 'no-repair' | 'told-of-afterwards';

const WORDS: Readonly<Record<ReasonCode, string>> = {
  'verified-there': 'Not a top-off: a repair was verified at the visit.',
  'first-charge': 'Not a top-off: the first charge of a new circuit.',
  retrofit: 'Not a top-off: charged after a change of refrigerant.',
  seasonal: 'Not a top-off: a seasonal adjustment.',
  'no-repair': 'Top-off: no repair at the visit.',
  'not-tested': 'Top-off: the repair was not tested at the visit.',
  'failed-there': 'Top-off: the repair failed its test at the visit.',
  'verified-later': 'Top-off: the repair was proven only at a later visit.',
  'told-of-afterwards': 'Top-off: told of afterwards, and no repair is on record.',
};
const NO_TOP_OFF: readonly ReasonCode[] = ['verified-there', 'first-charge', 'retrofit', 'seasonal'];

export interface JudgedAddition extends Addition {
  readonly topOff: boolean;
  readonly reason: {
    readonly code: ReasonCode;
    readonly text: string;
    /** Repairs and tests it rests on, beside the addition's own facts. */
    readonly factIds: readonly string[];
  };
}

interface Finding {
  readonly code: ReasonCode;
  readonly factIds: readonly string[];
}

/** Tests of one leak after its repair, oldest first, up to its next repair: what follows proves that one. */
function testsOf(repair: Repair, leakId: string, history: CircuitHistory): readonly Verification[] {
  const concerns = (fact: Repair) => fact.leakIds.includes(leakId);
  const next = history.repairs
    .filter((other) => concerns(other) && other.at > repair.at)
    .reduce<Instant | undefined>((first, { at }) => (first === undefined || at < first ? at : first), undefined);
  return history.verifications
    .filter((test) => concerns(test) && test.at >= repair.at && (next === undefined || test.at < next))
    .toSorted((a, b) => byText(a.at, b.at) || byText(a.factId, b.factId));
}

/**
 * What became of one repaired leak. The last test at the visit decides there; one that passes elsewhere later does not make
 * the visit's addition a repaired one (the definition says "verified there"), but is told.
 */
function findingOf(repair: Repair, leakId: string, history: CircuitHistory): Finding {
  const tests = testsOf(repair, leakId, history);
  const there = tests.findLast((test) => test.visitId === repair.visitId);
  const later = tests.find((test) => test.visitId !== repair.visitId && test.passed);
  const found = (code: ReasonCode, by?: Repair): Finding => ({
    code,
    factIds: by ? [repair.factId, by.factId] : [repair.factId],
  });
  if (there?.passed) return found('verified-there', there);
  if (later) return found('verified-later', later);
  return there ? found('failed-there', there) : found('not-tested');
}

function reasonFor(addition: Addition, history: CircuitHistory): Finding {
  if (addition.purpose !== 'service') return { code: addition.purpose, factIds: [] };
  if (addition.visitId === null) return { code: 'told-of-afterwards', factIds: [] };
  const findings = history.repairs
    .filter((repair) => repair.visitId === addition.visitId)
    .flatMap((repair) => repair.leakIds.map((leakId) => findingOf(repair, leakId, history)));
  for (const code of AT_REPAIR) {
    const same = findings.filter((finding) => finding.code === code);
    if (same.length > 0) return { code, factIds: [...new Set(same.flatMap((finding) => finding.factIds))] };
  }
  return { code: 'no-repair', factIds: [] };
}

/**
 * Every addition to one circuit, oldest first, each judged. A top-off is an addition to a circuit in service at a visit
 * without a repair that was verified there; a first charge, a retrofit and a seasonal adjustment are none. One repair that
 * was verified is enough, whatever else was repaired at the visit. What happens at a later visit never changes a verdict, so
 * that a count once shown stands: a repair proven only by its follow-up is named as such, and the addition still counts.
 */
export function topOffs(history: CircuitHistory): readonly JudgedAddition[] {
  return additionsOf(history.moves).map((addition) => {
    const { code, factIds } = reasonFor(addition, history);
    return { ...addition, topOff: !NO_TOP_OFF.includes(code), reason: { code, text: WORDS[code], factIds } };
  });
}
