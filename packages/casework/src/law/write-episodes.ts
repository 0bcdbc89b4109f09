import type { Episode } from '@ullage/rulebook';
import { txWrite } from '@ullage/database';
import type { Work } from '../pipeline/case.ts';

/** Each gets the instant of this reckoning, changed or not: by it the night's work knows when a circuit was last worked out. */
const KEEP = `
INSERT INTO episode (tenant_id, circuit_id, rulebook, key, opened_at, closed_at, state, updated_at)
SELECT $1, "circuitId", rulebook, key, "openedAt", "closedAt", state, $3
FROM jsonb_to_recordset($2) AS given ("circuitId" uuid, rulebook text, key text, "openedAt" timestamptz,
  "closedAt" timestamptz, state text)
ON CONFLICT (tenant_id, circuit_id, rulebook, key) DO UPDATE
SET opened_at = excluded.opened_at, closed_at = excluded.closed_at, state = excluded.state, updated_at = excluded.updated_at`;

const WITHDRAW = `
UPDATE episode SET state = 'withdrawn', updated_at = $4
WHERE tenant_id = $1 AND circuit_id = ANY ($2::uuid[]) AND state <> 'withdrawn' AND NOT EXISTS (
  SELECT FROM jsonb_to_recordset($3) AS given ("circuitId" uuid, key text)
  WHERE given."circuitId" = episode.circuit_id AND given.key = episode.key)`;

/** Writes the episodes of some circuits as they follow now; one that follows no more is withdrawn, never deleted. */
export async function writeEpisodes(
  { tx, tenantId, recordedAt }: Work,
  answers: readonly { readonly circuitId: string; readonly episodes: readonly Episode[] }[],
): Promise<void> {
  const rows = answers.flatMap(({ circuitId, episodes }) =>
    episodes.map(({ id: key, rulebook, openedAt, closedAt, closedBy }) => {
      return { circuitId, rulebook, key, openedAt, closedAt, state: closedBy ?? 'open' };
    }),
  );
  const given = JSON.stringify(rows);
  if (rows.length > 0) await txWrite(tx, KEEP, [tenantId, given, recordedAt]);
  const circuitIds = answers.map(({ circuitId }) => circuitId);
  await txWrite(tx, WITHDRAW, [tenantId, circuitIds, given, recordedAt]);
}
