import { asks as asksOf, reconcile, replayCircuit, replayCylinder, reverse } from '@ullage/gasbook';
import type { DerivedPosting } from '@ullage/gasbook';
import type { Case, Concern } from '../pipeline/case.ts';
import { derivedAgainst, outsideAccounts } from './accounts.ts';
import { enterMovements, movementsOf } from './movement-rows.ts';
import type { BookedMovement } from './movement-rows.ts';
import { circuitTimeline, cylinderTimeline } from './timelines.ts';

/**
 * Works out anew what follows from the facts of every touched account: what no longer follows is reversed, what is new
 * is posted, what is equal stays. Whatever order facts arrive in, the books end equal.
 */
export async function deriveBooks(desk: Case): Promise<void> {
  if (desk.accounts.size === 0) return;
  const outside = derivedAgainst(await outsideAccounts(desk.tx, desk.tenantId));
  for (const accountId of [...desk.accounts].sort()) {
    const account = await desk.tx.gasAccount.findUniqueOrThrow({
      where: { tenantId_id: { tenantId: desk.tenantId, id: accountId } },
    });
    const movements = await movementsOf(desk.tx, desk.tenantId, [accountId]);
    const loaded = { tx: desk.tx, tenantId: desk.tenantId, calendar: desk.world.calendar, movements };
    const wanted =
      account.circuitId === null
        ? replayCylinder(await cylinderTimeline(loaded, account.cylinderId ?? '', accountId), outside)
        : replayCircuit(await circuitTimeline(loaded, account.circuitId, accountId), outside);
    const subject = subjectOf(account);
    const fresh = await post(desk, accountId, { wanted, movements });
    for (const { code, text } of booksAsk(fresh)) desk.raise({ code, text, subject });
    desk.changed(subject.kind, subject.id);
  }
}

async function post(
  desk: Case,
  account: string,
  { wanted, movements }: { wanted: DerivedPosting[]; movements: BookedMovement[] },
): Promise<DerivedPosting[]> {
  const { reverse: wrong, post: fresh } = reconcile({ account, wanted, standing: movements });
  const stamp = () => ({ id: desk.world.newId(), recordedAt: desk.recordedAt });
  const entering = fresh.map((posting): BookedMovement => ({
    ...posting,
    ...stamp(),
    factId: posting.derived.fromFact,
    visitId: null,
    measured: 'derived',
  }));
  await enterMovements(desk, [...wrong.map((movement) => reverse(movement, stamp())), ...entering]);
  return [...fresh];
}

const subjectOf = (account: { circuitId: string | null; cylinderId: string | null }): Concern['subject'] =>
  account.circuitId === null
    ? { kind: 'cylinder', id: account.cylinderId ?? '' }
    : { kind: 'circuit', id: account.circuitId };

/** Two sigma of an ordinary field scale (14 g, common practice): below it two readings of one weight differ by themselves. */
const SCALE_NOISE_GRAMS = 28;

/** Questions that the derived postings raise by themselves, whoever caused them. */
function booksAsk(derived: readonly DerivedPosting[]) {
  const telling = derived.filter(
    (posting) => posting.derived.cause !== 'weighing-differs' || posting.grams > SCALE_NOISE_GRAMS,
  );
  const nothingStops = { act: 'charge', refrigerant: '', contents: [], circuitOwner: '', taints: [] } as const;
  return asksOf({ act: nothingStops, derived: telling });
}
