/** Looks after commands that wait: whoever went down between a command and what it held up left them behind. */
import { Refusal } from '@ullage/contracts';
import type { Prisma, Tx } from '@ullage/database';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import { STILL_WAITING } from '../pipeline/keep.ts';
import { problemOf } from '../pipeline/problem.ts';
import { carryOut, storedCommands } from '../pipeline/waiting.ts';
import type { Carried } from '../pipeline/waiting.ts';
import { nightWork } from './night-work.ts';

/** What was carried on, and whether more than one call takes it: call again. */
export interface CarriedOn extends Carried {
  readonly more: boolean;
}

const AT_ONCE = 200;
/** A device without a signal for an afternoon is no trouble; for longer somebody should ask where the rest is. */
const SHOWN_AFTER_MS = 86_400_000;

/** Carries out every command that waits for nothing more. Several may do so at once: each command is applied once. */
export async function carryOnReady(world: World, tenantId: string): Promise<CarriedOn> {
  const ready = await world.database.inTenant(tenantId, async (tx) =>
    storedCommands(tx, tenantId, await readyIds(tx, tenantId)),
  );
  const done = await carryOut(world, { tenantId }, ready);
  return { ...done, more: ready.length === AT_ONCE && done.applied > 0 && done.faults.length === 0 };
}

/** Those whose every dependency has been applied. */
async function readyIds(tx: Tx, tenantId: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT waiting.id FROM command waiting
    WHERE waiting.tenant_id = ${tenantId}::uuid AND waiting.state = 'waiting'
    AND NOT EXISTS (SELECT FROM tenant WHERE tenant.id = waiting.tenant_id AND tenant.taking_over)
    AND NOT EXISTS (
      SELECT FROM command_wait wait WHERE wait.tenant_id = waiting.tenant_id AND wait.command_id = waiting.id
      AND NOT EXISTS (
        SELECT FROM command done WHERE done.tenant_id = wait.tenant_id AND done.id = wait.waits_for
        AND done.state = 'applied'))
    ORDER BY waiting.device_id, waiting.device_seq, waiting.received_at, waiting.id LIMIT ${AT_ONCE}`;
  return rows.map(({ id }) => id);
}

/**
 * Shows a person each command that has waited longer than a day, and again a day after they said "try again". It goes on
 * waiting: what it waits for may lie on a device that is out of reach. Returns how many were shown.
 */
export function showLongWaits(world: World, tenantId: string): Promise<number> {
  return nightWork(world, { tenantId, action: 'still-waiting' }, async (desk) => {
    const { tx } = desk;
    // Two that look at once open one item.
    await tx.$executeRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`still-waiting|${tenantId}`}, 0))`;
    const since = new Date(toDate(desk.recordedAt).getTime() - SHOWN_AFTER_MS);
    const rows = await longWaiting(tx, tenantId, since);
    for (const { id: commandId, name } of rows) {
      const id = world.newId();
      const problem = problemOf(new Refusal('still-waiting', wordsFor(name)));
      await tx.attention.create({
        data: {
          tenantId,
          id,
          kind: 'command',
          commandId,
          reason: STILL_WAITING,
          problem: problem as unknown as Prisma.InputJsonValue,
          openedAt: toDate(desk.recordedAt),
        },
      });
      desk.changed('attention', id, 'made');
    }
    return rows.length;
  });
}

const wordsFor = (name: string | null): string =>
  `From ${name ?? 'somebody'}: what it builds on has not come for a day. Ask them, or leave it out.`;

function longWaiting(tx: Tx, tenantId: string, since: Date): Promise<{ id: string; name: string | null }[]> {
  return tx.$queryRaw`
    SELECT waiting.id, person.name FROM command waiting
    LEFT JOIN person ON person.tenant_id = waiting.tenant_id AND person.user_id = waiting.user_id
    WHERE waiting.tenant_id = ${tenantId}::uuid AND waiting.state = 'waiting' AND waiting.received_at <= ${since}
    AND NOT EXISTS (SELECT FROM tenant WHERE tenant.id = waiting.tenant_id AND tenant.taking_over)
    AND NOT EXISTS (
      SELECT FROM attention item WHERE item.tenant_id = waiting.tenant_id AND item.command_id = waiting.id
      AND item.kind = 'command' AND (item.closed_at IS NULL OR item.closed_at > ${since}))
    ORDER BY waiting.received_at, waiting.id LIMIT ${AT_ONCE}`;
}
