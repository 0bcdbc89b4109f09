import type { Tx } from '@ullage/database';
import { recomputeCircuits } from '../law/recompute.ts';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import { lock } from '../pipeline/lock.ts';
import { announceDuties } from '../pipeline/settle.ts';
import { AHEAD_DAYS, PURPOSE } from '../visits/return-visits.ts';
import { nightWork } from './night-work.ts';

export interface Recomputed {
  /** Circuits worked out anew. */
  readonly circuits: number;
  /** What went wrong with single circuits; the others were done all the same. */
  readonly faults: readonly unknown[];
  /** More than one call takes: call again. */
  readonly more: boolean;
}

const AT_ONCE = 200;

/**
 * Law changes by the passing of time alone: a repair whose last day is over opens the plan duty, a period that ended
 * opens the next, and a duty that comes near wants its return visit. Each circuit is worked out in a transaction of its
 * own, locked as by a command.
 */
export async function recomputeDue(world: World, tenantId: string): Promise<Recomputed> {
  const now = toDate(world.now());
  const ids = await world.database.inTenant(tenantId, (tx) => dueCircuits(tx, tenantId, now));
  const faults: unknown[] = [];
  for (const circuitId of ids) {
    await letTimePass(world, tenantId, { circuit: circuitId, cause: world.newId() }).catch((error: unknown) =>
      faults.push(error),
    );
  }
  return { circuits: ids.length - faults.length, faults, more: ids.length === AT_ONCE && faults.length === 0 };
}

/** Works out one circuit's law as of now. From the same cause and state it makes the same rows. */
export function letTimePass(
  world: World,
  tenantId: string,
  passed: { readonly circuit: string; readonly cause: string },
): Promise<void> {
  const { circuit: circuitId } = passed;
  return nightWork(world, { tenantId, action: 'time-passed', passed }, async (desk) => {
    await lock(desk.tx, tenantId, { circuitIds: [circuitId] });
    await recomputeCircuits(desk, [circuitId]);
    if (desk.changes.length > 0) await announceDuties(desk, [circuitId]);
  });
}

/**
 * Circuits with an open duty whose edge passed after the law was last worked out for them, or that somebody must drive
 * out for soon and that no visit stands for. A circuit just worked out is not chosen again: an episode carries the
 * instant of the last time.
 */
async function dueCircuits(tx: Tx, tenantId: string, now: Date): Promise<string[]> {
  const ahead = new Date(now.getTime() + AHEAD_DAYS * 86_400_000);
  const kinds = Object.keys(PURPOSE);
  const rows = await tx.$queryRaw<{ circuit_id: string }[]>`
    SELECT DISTINCT duty.circuit_id FROM duty
    WHERE duty.tenant_id = ${tenantId}::uuid AND duty.state = 'open' AND duty.due_at <= ${ahead}
    AND NOT EXISTS (SELECT FROM tenant WHERE tenant.id = duty.tenant_id AND tenant.taking_over)
    AND (
      (duty.due_at <= ${now} AND NOT EXISTS (
        SELECT FROM episode WHERE episode.tenant_id = duty.tenant_id AND episode.circuit_id = duty.circuit_id
        AND episode.updated_at >= duty.due_at))
      OR (duty.kind = ANY(${kinds}::text[])
        AND NOT EXISTS (
          SELECT FROM visit_duty JOIN visit ON visit.tenant_id = visit_duty.tenant_id AND visit.id = visit_duty.visit_id
          WHERE visit_duty.tenant_id = duty.tenant_id AND visit_duty.duty_id = duty.id AND visit_duty.flag IS NULL
          AND visit.state IN ('proposed', 'placed'))
        AND NOT EXISTS (
          SELECT FROM visit_circuit JOIN visit ON visit.tenant_id = visit_circuit.tenant_id
          AND visit.id = visit_circuit.visit_id
          WHERE visit_circuit.tenant_id = duty.tenant_id AND visit_circuit.circuit_id = duty.circuit_id
          AND visit.state = 'on-site'))
    )
    ORDER BY duty.circuit_id LIMIT ${AT_ONCE}`;
  return rows.map((row) => row.circuit_id);
}
