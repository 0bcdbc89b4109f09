import { asks as asksOf, reconcile, replayCircuit, replayCylinder, reverse } from '@ullage/gasbook';
import type { DerivedPosting } from '@ullage/gasbook';
import type { Case } from '../pipeline/case.ts';
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
    await post(desk, accountId, { wanted, movements });
    desk.changed(
      account.circuitId === null ? 'cylinder' : 'circuit',
      account.circuitId ?? account.cylinderId ?? accountId,
    );
  }
}

async function post(
  desk: Case,
  account: string,
  { wanted, movements }: { wanted: DerivedPosting[]; movements: BookedMovement[] },
): Promise<void> {
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
  for (const { code, text } of booksAsk(fresh)) desk.ask(code, text);
}

/** Questions that the derived postings raise by themselves, whoever caused them. */
function booksAsk(derived: readonly DerivedPosting[]) {
  const nothingStops = { act: 'charge', refrigerant: '', contents: [], circuitOwner: '', taints: [] } as const;
  return asksOf({ act: nothingStops, derived });
}
