import type { Statement } from '@ullage/database';
import * as z from 'zod';

/**
 * What cylinders gave to circuits and took from them, by visit and gas, as it stands: a movement that was taken back
 * counts for nothing, and neither does the one that takes it back. To bill is the net, and never more than came out of the
 * firm's own gas: what the customer owns already is not sold to them. Beside it the invoice that stands. $1 the contractor.
 */
const USED = `
  moved AS (
    SELECT m.visit_id, m.refrigerant, m.fact_id, sum(m.grams)::int AS grams, min(m.happened_at) AS happened_at,
      a.kind = 'cylinder' AS charged,
      coalesce(sum(m.grams) FILTER (WHERE a.kind = 'cylinder' AND m.from_owner = m.tenant_id), 0)::int AS own_grams,
      coalesce(a.circuit_id, b.circuit_id) AS circuit_id
    FROM movement m
    JOIN gas_account a ON a.tenant_id = m.tenant_id AND a.id = m.from_id
    JOIN gas_account b ON b.tenant_id = m.tenant_id AND b.id = m.to_id
    WHERE m.tenant_id = $1::uuid AND m.visit_id IS NOT NULL AND m.derived_cause IS NULL AND m.corrects_id IS NULL
      AND (a.kind, b.kind) IN (('cylinder', 'circuit'), ('circuit', 'cylinder'))
      AND NOT EXISTS (SELECT 1 FROM movement undone WHERE undone.tenant_id = m.tenant_id AND undone.corrects_id = m.id)
    -- One weighing may draw from several holdings of a cylinder.
    GROUP BY m.visit_id, m.refrigerant, m.fact_id, a.kind, a.circuit_id, b.circuit_id
  ), by_gas AS (
    SELECT visit_id, refrigerant,
      coalesce(sum(grams) FILTER (WHERE charged), 0)::int AS charged_grams,
      sum(own_grams)::int AS own_grams,
      coalesce(sum(grams) FILTER (WHERE NOT charged), 0)::int AS recovered_grams,
      coalesce(jsonb_agg(jsonb_build_object('id', fact_id, 'grams', grams) ORDER BY happened_at, fact_id)
        FILTER (WHERE charged), '[]') AS charged,
      coalesce(jsonb_agg(jsonb_build_object('id', fact_id, 'grams', grams) ORDER BY happened_at, fact_id)
        FILTER (WHERE NOT charged), '[]') AS recovered,
      array_agg(DISTINCT circuit_id) AS circuits
    FROM moved GROUP BY visit_id, refrigerant
  ), standing AS (
    SELECT g.visit_id, g.refrigerant, g.id, g.invoice, g.grams, g.billed_at, p.name AS billed_by
    FROM gas_bill g JOIN person p ON p.tenant_id = g.tenant_id AND p.id = g.billed_by
    WHERE g.tenant_id = $1::uuid AND g.undone_at IS NULL
  ), used AS (
    SELECT coalesce(u.visit_id, s.visit_id) AS visit_id, coalesce(u.refrigerant, s.refrigerant) AS refrigerant,
      coalesce(u.charged_grams, 0) AS charged_grams, coalesce(u.own_grams, 0) AS own_grams,
      coalesce(u.recovered_grams, 0) AS recovered_grams,
      coalesce(u.charged_grams - u.recovered_grams, 0) AS net_grams,
      least(coalesce(u.charged_grams - u.recovered_grams, 0), coalesce(u.own_grams, 0)) AS bill_grams,
      coalesce(u.charged, '[]') AS charged, coalesce(u.recovered, '[]') AS recovered, coalesce(u.circuits, '{}') AS circuits,
      s.id AS bill_id, s.invoice, s.grams AS billed_grams, s.billed_at, s.billed_by
    FROM by_gas u FULL JOIN standing s ON s.visit_id = u.visit_id AND s.refrigerant = u.refrigerant
  )`;
/** What is to bill and stands on no invoice, or on one that says another mass. */
const OPEN = '((bill_id IS NULL AND bill_grams > 0) OR billed_grams <> bill_grams)';

const Facts = z.array(z.object({ id: z.string(), grams: z.int() }));
const Row = z.object({
  visitId: z.string(),
  refrigerant: z.string(),
  at: z.date(),
  timeZone: z.string(),
  site: z.string(),
  customer: z.string(),
  onSite: z.boolean(),
  people: z.array(z.string()),
  circuits: z.array(z.object({ tag: z.string(), unitId: z.string(), letter: z.string() })),
  charged: Facts,
  recovered: Facts,
  chargedGrams: z.int(),
  ownGrams: z.int(),
  recoveredGrams: z.int(),
  netGrams: z.int(),
  billGrams: z.int(),
  billId: z.string().nullable(),
  invoice: z.string().nullable(),
  billedGrams: z.int().nullable(),
  billedAt: z.date().nullable(),
  billedBy: z.string().nullable(),
});
export type GasUsedSqlRow = z.output<typeof Row>;

const WHEN = 'coalesce(v.started_at, v.planned_start, v.created_at)';
/**
 * $2 `open`, `billed` or `all`, $3 the visit after which to read, $4 how many visits: newest visits first, every gas of
 * a visit on the same page.
 */
export const GAS_USED: Statement<GasUsedSqlRow> = {
  text: `
  WITH ${USED}, asked AS (
    SELECT used.visit_id, used.refrigerant, charged_grams, own_grams, recovered_grams, net_grams, bill_grams, charged,
      recovered,      circuits, bill_id, invoice, billed_grams, billed_at, billed_by, ${WHEN} AS at, v.site_id, v.state
    FROM used JOIN visit v ON v.tenant_id = $1::uuid AND v.id = used.visit_id
    WHERE CASE $2::text WHEN 'open' THEN ${OPEN} WHEN 'billed' THEN bill_id IS NOT NULL ELSE true END
  ), page AS (
    SELECT DISTINCT at, visit_id FROM asked
    WHERE $3::uuid IS NULL OR (at, visit_id) < (
      SELECT ${WHEN}, v.id FROM visit v WHERE v.tenant_id = $1::uuid AND v.id = $3::uuid)
    ORDER BY at DESC, visit_id DESC LIMIT $4::int
  )
  SELECT asked.visit_id AS "visitId", asked.refrigerant, asked.at, s.time_zone AS "timeZone", s.name AS site, o.name AS customer,
    asked.state = 'on-site' AS "onSite",
    coalesce((
      SELECT jsonb_agg(p.name ORDER BY p.name) FROM visit_person w
      JOIN person p ON p.tenant_id = w.tenant_id AND p.id = w.person_id
      WHERE w.tenant_id = $1::uuid AND w.visit_id = asked.visit_id), '[]') AS people,
    coalesce((
      SELECT jsonb_agg(jsonb_build_object('tag', u.tag || '-' || c.letter, 'unitId', u.id, 'letter', c.letter) ORDER BY u.tag, c.letter)
      FROM circuit c JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id
      WHERE c.tenant_id = $1::uuid AND c.id = ANY(asked.circuits)), '[]') AS circuits,
    asked.charged, asked.recovered, asked.charged_grams AS "chargedGrams", asked.own_grams AS "ownGrams",
    asked.recovered_grams AS "recoveredGrams", asked.net_grams AS "netGrams",
    asked.bill_grams AS "billGrams", asked.bill_id AS "billId", asked.invoice,
    asked.billed_grams AS "billedGrams", asked.billed_at AS "billedAt", asked.billed_by AS "billedBy"
  FROM page JOIN asked USING (at, visit_id)
  JOIN site s ON s.tenant_id = $1::uuid AND s.id = asked.site_id
  JOIN customer o ON o.tenant_id = $1::uuid AND o.id = s.customer_id
  ORDER BY asked.at DESC, asked.visit_id DESC, asked.refrigerant`,
  row: Row,
};

const Open = z.object({ refrigerant: z.string(), grams: z.coerce.number(), visits: z.coerce.number() });
/** $1 the contractor: what stands on no invoice yet, by gas. */
export const GAS_OPEN: Statement<z.output<typeof Open>> = {
  text: `
  WITH ${USED}
  SELECT refrigerant, sum(bill_grams) AS grams, count(*) AS visits FROM used
  WHERE bill_id IS NULL AND bill_grams > 0 GROUP BY refrigerant ORDER BY refrigerant`,
  row: Open,
};

const ToBill = z.object({ grams: z.int() });
/** $1 the contractor, $2 a visit, $3 a gas: what of it is to bill. */
export const GAS_TO_BILL: Statement<z.output<typeof ToBill>> = {
  text: `
  WITH ${USED}
  SELECT bill_grams AS grams FROM used WHERE visit_id = $2::uuid AND refrigerant = $3::text`,
  row: ToBill,
};
