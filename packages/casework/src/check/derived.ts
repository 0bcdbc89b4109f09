import { reconcile, replayCircuit, replayCylinder } from '@ullage/gasbook';
import { derivedAgainst, outsideAccounts } from '../gas/accounts.ts';
import { movementsOf } from '../gas/movement-rows.ts';
import { circuitTimeline, cylinderTimeline } from '../gas/timelines.ts';
import type { Checking, Found } from './shapes.ts';

/** Derives every cylinder's and circuit's postings from its facts anew, and tells where the books hold others. */
export async function derivedPostings({ tx, tenantId, calendar }: Checking): Promise<Found> {
  const outside = derivedAgainst(await outsideAccounts(tx, tenantId));
  const accounts = await tx.gasAccount.findMany({
    where: { tenantId, kind: { in: ['cylinder', 'circuit'] } },
    select: { id: true, kind: true, cylinderId: true, circuitId: true },
    orderBy: { id: 'asc' },
  });
  const wrong: string[] = [];
  let looked = 0;
  for (const { id: account, kind, cylinderId, circuitId } of accounts) {
    const movements = await movementsOf(tx, tenantId, [account]);
    const loaded = { tx, tenantId, calendar, movements };
    const wanted =
      circuitId === null
        ? replayCylinder(await cylinderTimeline(loaded, cylinderId ?? '', account), outside)
        : replayCircuit(await circuitTimeline(loaded, circuitId, account), outside);
    looked += wanted.length;
    const { reverse, post } = reconcile({ account, wanted, standing: movements });
    if (reverse.length + post.length === 0) continue;
    const causes = [
      ...reverse.flatMap(({ derived }) => derived?.cause ?? []),
      ...post.map(({ derived }) => derived.cause),
    ];
    const named = [...new Set(causes)].join(', ');
    wrong.push(`${kind} account ${account}: ${reverse.length} do not follow, ${post.length} are missing (${named})`);
  }
  return { looked, wrong };
}
