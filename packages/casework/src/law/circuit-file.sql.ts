import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Head = z.object({
  id: z.string(),
  refrigerant: z.string(),
  use: z.string(),
  equipment: z.string(),
  subsector: z.string().nullable(),
  installedOn: z.string().nullable(),
  siteId: z.string(),
  customerId: z.string(),
  timeZone: z.string(),
  method: z.string().nullable(),
  fullCharges: z.array(
    z.object({
      fromOn: z.string(),
      value: z.string(),
      unit: z.string(),
      method: z.string(),
      lowValue: z.string().nullable(),
      highValue: z.string().nullable(),
    }),
  ),
});
export type CircuitHead = z.output<typeof Head>;
/** $1 the contractor, $2 circuits: what each is, and where it stands. */
export const CIRCUIT_HEADS: Statement<CircuitHead> = {
  text: `
    SELECT c.id, c.refrigerant, c.use, c.equipment, c.subsector, c.installed_on::text AS "installedOn",
      s.id AS "siteId", s.customer_id AS "customerId", s.time_zone AS "timeZone",
      (SELECT m.method FROM facility_method m
        WHERE m.tenant_id = s.tenant_id AND m.facility_id = s.facility_id
        ORDER BY m.since_on DESC LIMIT 1) AS method,
      coalesce((
        SELECT jsonb_agg(jsonb_build_object('fromOn', f.from_on, 'value', f.value, 'unit', f.unit, 'method', f.method,
          'lowValue', f.low_value, 'highValue', f.high_value) ORDER BY f.from_on, f.recorded_at, f.id)
        FROM full_charge f WHERE f.tenant_id = c.tenant_id AND f.circuit_id = c.id), '[]') AS "fullCharges"
    FROM circuit c
    JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id
    JOIN site s ON s.tenant_id = u.tenant_id AND s.id = u.site_id
    WHERE c.tenant_id = $1::uuid AND c.id = ANY($2::uuid[])`,
  row: Head,
};

const Fact = z.object({
  id: z.string(),
  circuitId: z.string(),
  kind: z.string(),
  visitId: z.string().nullable(),
  happenedAt: z.date().nullable(),
  happenedOn: z.string().nullable(),
  recordedAt: z.date(),
  seq: z.number(),
  body: z.unknown(),
  leakIds: z.array(z.string()),
  factCorrectses: z.array(
    z.object({ id: z.string(), happenedAt: z.coerce.date<string>().nullable(), body: z.unknown() }),
  ),
});
export type FileFact = z.output<typeof Fact>;
/** $1 the contractor, $2 circuits, $3 kinds of fact: what happened to each, in the order it happened, with its corrections. */
export const CIRCUIT_FACTS: Statement<FileFact> = {
  text: `
    SELECT f.id, f.circuit_id AS "circuitId", f.kind, f.visit_id AS "visitId", f.happened_at AS "happenedAt",
      f.happened_on::text AS "happenedOn", f.recorded_at AS "recordedAt", f.seq, f.body,
      coalesce((
        SELECT jsonb_agg(r.leak_point_id ORDER BY r.role, r.ordinal) FROM fact_ref r
        WHERE r.tenant_id = f.tenant_id AND r.fact_id = f.id AND r.leak_point_id IS NOT NULL), '[]') AS "leakIds",
      coalesce((
        SELECT jsonb_agg(jsonb_build_object('id', c.id, 'happenedAt', c.happened_at, 'body', c.body))
        FROM fact c
        WHERE c.tenant_id = f.tenant_id AND c.corrects_id = f.id AND c.kind = 'correction'), '[]') AS "factCorrectses"
    FROM fact f
    WHERE f.tenant_id = $1::uuid AND f.circuit_id = ANY($2::uuid[]) AND f.kind = ANY($3::text[])
      AND NOT EXISTS (SELECT FROM fact back WHERE back.tenant_id = f.tenant_id AND back.corrects_id = f.id AND back.kind = 'withdrawal')
      -- Evidence that was made with what turned out to be bad discharges nothing.
      AND NOT EXISTS (
        SELECT 1 FROM fact away WHERE away.tenant_id = f.tenant_id AND away.corrects_id = f.id AND away.kind = 'set-aside')
    ORDER BY f.happened_at, f.recorded_at, f.id`,
  row: Fact,
};
