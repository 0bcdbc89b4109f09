import type { World } from '../office.ts';
import { Work } from '../pipeline/case.ts';
import { idsFrom } from '../pipeline/ids.ts';
import { withRetry } from '../pipeline/retry.ts';
import { writeAudit, writeFeed } from '../pipeline/settle.ts';

/**
 * Runs work that no command asked for, in one transaction of the tenant. What it touched goes into the audit trail
 * without a user, and into the feed, last of all. May run twice when the answer to its COMMIT is lost: `work` must find
 * nothing left to do the second time.
 */
export async function nightWork<T>(
  world: World,
  given: {
    readonly tenantId: string;
    readonly action: string;
    readonly timeoutMs?: number;
    /** Of one circuit, where nothing but the time caused it; its ids follow from the cause. */
    readonly passed?: { readonly circuit: string; readonly cause: string };
  },
  work: (desk: Work) => Promise<T>,
): Promise<T> {
  const { tenantId, action, timeoutMs, passed } = given;
  const { answer, changed } = await withRetry(() =>
    world.database.inTenant(
      tenantId,
      async (tx) => {
        const recordedAt = world.now();
        const newId = passed ? idsFrom(world.calendar, { cause: passed.cause, at: recordedAt }) : () => world.newId();
        const desk = new Work({ tx, world: { ...world, newId }, tenantId, recordedAt });
        const done = await work(desk);
        await writeAudit(desk, { action, userId: null, commandId: null, address: null }, passed);
        await writeFeed(desk, passed?.cause ?? null);
        return { answer: done, changed: desk.changes.length > 0 };
      },
      timeoutMs === undefined ? {} : { timeoutMs },
    ),
  );
  if (changed) await world.database.notify('ullage_feed', tenantId);
  return answer;
}
