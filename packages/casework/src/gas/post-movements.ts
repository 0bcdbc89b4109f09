/** Writing movements: the one way into the table. */
import { txWrite } from '@ullage/database';
import type { Tx } from '@ullage/database';

/** A movement as its row: instants as text; the contractor's own gas bears the contractor's id as owner. */
export interface MovementRow {
  readonly id: string;
  readonly refrigerant: string;
  readonly grams: number;
  readonly fromId: string;
  readonly toId: string;
  readonly fromOwner: string;
  readonly fromState: string;
  readonly toOwner: string;
  readonly toState: string;
  readonly happenedAt: string;
  readonly recordedAt: string;
  readonly factId: string | null;
  readonly visitId: string | null;
  readonly measured: string;
  readonly derivedCause: string | null;
  readonly derivedKey: string | null;
  readonly correctsId: string | null;
}

/** However many there are, one text: it is planned once per connection, and its rows come in one value. */
const POST = `
INSERT INTO movement (tenant_id, id, refrigerant, grams, from_id, to_id, from_owner, from_state, to_owner, to_state,
  happened_at, recorded_at, fact_id, visit_id, measured, derived_cause, derived_key, corrects_id, seq)
SELECT $1, id, refrigerant, grams, "fromId", "toId", "fromOwner", "fromState", "toOwner", "toState", "happenedAt",
  "recordedAt", "factId", "visitId", measured, "derivedCause", "derivedKey", "correctsId", seq
FROM jsonb_to_recordset($2) AS given (id uuid, refrigerant text, grams integer, "fromId" uuid, "toId" uuid, "fromOwner" uuid,
  "fromState" text, "toOwner" uuid, "toState" text, "happenedAt" timestamptz, "recordedAt" timestamptz, "factId" uuid,
  "visitId" uuid, measured text, "derivedCause" text, "derivedKey" text, "correctsId" uuid, seq integer)`;

/** Enters movements in the order given. Balances follow by trigger, in the same transaction. */
export async function postMovements(tx: Tx, tenantId: string, movements: readonly MovementRow[]): Promise<void> {
  if (movements.length === 0) return;
  const rows = movements.map((movement, seq) => ({ ...movement, seq }));
  await txWrite(tx, POST, [tenantId, JSON.stringify(rows)]);
}
