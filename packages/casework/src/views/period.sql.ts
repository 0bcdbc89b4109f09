import { ACCOUNT_KINDS } from '@ullage/gasbook';
import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Kind = z.enum(ACCOUNT_KINDS);
const FlowRow = z.object({
  refrigerant: z.string(),
  from: Kind,
  to: Kind,
  when: z.enum(['before', 'within']),
  undoes: z.boolean(),
  grams: z.coerce.number(),
});
/** $1 the contractor, $2 the period's first instant, $3 the first after it: what went from kind to kind, added up. */
export const FLOWS: Statement<z.output<typeof FlowRow>> = {
  text: `
    SELECT m.refrigerant, source.kind AS "from", target.kind AS "to",
      CASE WHEN m.happened_at < $2::timestamptz THEN 'before' ELSE 'within' END AS "when",
      m.corrects_id IS NOT NULL AS undoes, sum(m.grams)::bigint AS grams
    FROM movement m
    JOIN gas_account source ON source.tenant_id = m.tenant_id AND source.id = m.from_id
    JOIN gas_account target ON target.tenant_id = m.tenant_id AND target.id = m.to_id
    WHERE m.tenant_id = $1::uuid AND m.happened_at < $3::timestamptz
    GROUP BY 1, 2, 3, 4, 5`,
  row: FlowRow,
};

const STANDS = `m.corrects_id IS NULL
        AND NOT EXISTS (SELECT FROM movement undone WHERE undone.tenant_id = m.tenant_id AND undone.corrects_id = m.id)`;
const ChargedCircuit = z.object({
  refrigerant: z.string(),
  /** When the books met it, by what stands: a past addition that was taken back is no meeting. */
  firstAt: z.date(),
  closedAt: z.date().nullable(),
  timeZone: z.string(),
  fullCharges: z.array(z.object({ id: z.string(), fromOn: z.string(), value: z.string(), unit: z.string() })),
});
/** $1 the contractor, $2 the first instant after the period: circuits that were in the books by then, with their full charges. */
export const CIRCUITS: Statement<z.output<typeof ChargedCircuit>> = {
  text: `
    SELECT c.refrigerant, met.first_at AS "firstAt", c.closed_at AS "closedAt", site.time_zone AS "timeZone",
      coalesce((SELECT json_agg(json_build_object('id', f.id, 'fromOn', f.from_on, 'value', f.value, 'unit', f.unit))
        FROM full_charge f WHERE f.tenant_id = c.tenant_id AND f.circuit_id = c.id), '[]') AS "fullCharges"
    FROM circuit c
    JOIN unit ON unit.tenant_id = c.tenant_id AND unit.id = c.unit_id
    JOIN site ON site.tenant_id = unit.tenant_id AND site.id = unit.site_id
    JOIN gas_account a ON a.tenant_id = c.tenant_id AND a.circuit_id = c.id
    CROSS JOIN LATERAL (SELECT least(
      (SELECT min(m.happened_at) FROM movement m WHERE m.tenant_id = a.tenant_id AND m.to_id = a.id AND ${STANDS}),
      (SELECT min(m.happened_at) FROM movement m WHERE m.tenant_id = a.tenant_id AND m.from_id = a.id AND ${STANDS})) AS first_at) met
    WHERE c.tenant_id = $1::uuid AND c.withdrawn_at IS NULL AND met.first_at < $2::timestamptz`,
  row: ChargedCircuit,
};

const AccountRow = z.object({
  accountId: z.string(),
  openingGrams: z.coerce.number(),
  inGrams: z.coerce.number(),
  outGrams: z.coerce.number(),
});
/**
 * $1 the contractor, $2 and $3 the period, $4 the refrigerant, $5 how many: cylinders and circuits, those that moved most
 * first. What was taken back counts neither as come nor as left.
 */
export const PERIOD_ACCOUNTS: Statement<z.output<typeof AccountRow>> = {
  text: `
    WITH sides AS (
      SELECT m.to_id AS account_id, m.happened_at, m.grams, m.corrects_id IS NOT NULL AS undoes FROM movement m
      WHERE m.tenant_id = $1::uuid AND m.refrigerant = $4 AND m.happened_at < $3::timestamptz
      UNION ALL
      SELECT m.from_id, m.happened_at, -m.grams, m.corrects_id IS NOT NULL FROM movement m
      WHERE m.tenant_id = $1::uuid AND m.refrigerant = $4 AND m.happened_at < $3::timestamptz
    ), sums AS (
      SELECT account_id,
        coalesce(sum(grams) FILTER (WHERE happened_at < $2::timestamptz), 0) AS opening,
        coalesce(sum(CASE WHEN undoes THEN least(grams, 0) ELSE greatest(grams, 0) END)
          FILTER (WHERE happened_at >= $2::timestamptz), 0) AS came,
        coalesce(sum(CASE WHEN undoes THEN -greatest(grams, 0) ELSE -least(grams, 0) END)
          FILTER (WHERE happened_at >= $2::timestamptz), 0) AS went
      FROM sides GROUP BY account_id
    )
    SELECT sums.account_id AS "accountId", opening AS "openingGrams", came AS "inGrams", went AS "outGrams"
    FROM sums JOIN gas_account a ON a.tenant_id = $1::uuid AND a.id = sums.account_id
    WHERE a.kind IN ('cylinder', 'circuit') AND (opening <> 0 OR came <> 0 OR went <> 0)
    ORDER BY came + went DESC, sums.account_id LIMIT $5::int`,
  row: AccountRow,
};
