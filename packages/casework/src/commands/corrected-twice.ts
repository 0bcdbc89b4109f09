import type { Correction, StandingAct } from '@ullage/gasbook';
import { bookedGrams } from '@ullage/units';
import { correctionOf } from '../gas/corrections.ts';
import type { Case } from '../pipeline/case.ts';

export interface Signed extends Correction {
  readonly by: { readonly id: string; readonly name: string };
}
/** Corrections of one cylinder's weights at a fact that are there already, with who made them. */
export async function correctionsOf(
  desk: Case,
  { factId, cylinderId }: { factId: string; cylinderId: string },
): Promise<Signed[]> {
  const factRefs = { some: { role: 'cylinder', cylinderId } };
  const rows = await desk.tx.fact.findMany({
    where: { tenantId: desk.tenantId, correctsId: factId, kind: 'correction', factRefs },
    select: { id: true, happenedAt: true, body: true, byPerson: { select: { id: true, name: true } } },
  });
  return rows.map((row) => ({ ...correctionOf(row), by: row.byPerson ?? { id: '', name: 'Somebody' } }));
}

interface Asked {
  /** What was corrected; the visit is not there where gas was moved in the shop. */
  readonly act: { readonly visitId: string | undefined; readonly cylinderId: string; readonly cylinder: string };
  readonly standing: StandingAct;
  /** The one that came now. */
  readonly own: Signed;
  readonly others: readonly Signed[];
}

/**
 * Asks when two people put one weighing right and do not say the same, whichever of them came first, and when a correction
 * does not count because a weight would go the wrong way. Nothing of what somebody corrected is passed over unseen.
 */
export function askAboutCorrections(desk: Case, { act, standing, own, others }: Asked): void {
  const subject =
    act.visitId === undefined
      ? ({ kind: 'cylinder', id: act.cylinderId } as const)
      : ({ kind: 'visit', id: act.visitId } as const);
  if (others.some((other) => other.by.id !== own.by.id && !saysTheSame(other, own))) {
    const text = `Two people corrected one weighing of ${act.cylinder}. What was corrected last stands; look which is right.`;
    desk.raise({ code: 'corrected-twice', text, subject });
  }
  if (standing.setAside.size > 0) {
    const text = `A correction of ${act.cylinder} goes the wrong way with another; it is kept and not counted. Look which is right.`;
    desk.raise({ code: 'correction-set-aside', text, subject });
  }
}

function saysTheSame({ said: a }: Correction, { said: b }: Correction): boolean {
  const isSame = (role: 'before' | 'after'): boolean => {
    const [one, other] = [a[role], b[role]];
    return one && other ? bookedGrams(one) === bookedGrams(other) : one === other;
  };
  return isSame('before') && isSame('after') && a.full === b.full;
}
