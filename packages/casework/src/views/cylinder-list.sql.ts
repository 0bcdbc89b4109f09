import type { Statement } from '@ullage/database';
import { TAINT_CAUSES } from '@ullage/gasbook';
import * as z from 'zod';

const Row = z.object({
  id: z.string(),
  serial: z.string(),
  label: z.string().nullable(),
  kind: z.string(),
  specification: z.string(),
  dedicatedTo: z.string().nullable(),
  waterCapacityKg: z.number(),
  servicePressureKpaGauge: z.number().nullable(),
  testedMonth: z.string().nullable(),
  placeId: z.string().nullable(),
  placeName: z.string().nullable(),
  lostAt: z.date().nullable(),
  goneHow: z.string().nullable(),
  tareGrams: z.number().nullable(),
  accountId: z.string().nullable(),
  owner: z.string().nullable(),
  contents: z.array(
    z.object({ refrigerant: z.string(), owner: z.string(), state: z.string(), grams: z.coerce.number() }),
  ),
  doubts: z.array(
    z.object({
      cause: z.enum(TAINT_CAUSES),
      originFactId: z.string(),
      lowGrams: z.number(),
      highGrams: z.number().nullable(),
      originHighGrams: z.number().nullable(),
      confirmedBy: z.string().nullable(),
    }),
  ),
  weighedAt: z.date().nullable(),
  weighedBy: z.string().nullable(),
  weighedAtSite: z.string().nullable(),
  visitId: z.string().nullable(),
});
export type CylinderListRow = z.output<typeof Row>;

const HELD = `FROM balance b
        WHERE b.tenant_id = c.tenant_id AND b.account_id = a.id AND b.grams > 0`;
const DOUBTED = `FROM taint t
        WHERE t.tenant_id = c.tenant_id AND t.account_id = a.id AND t.cleared_by_fact IS NULL AND t.withdrawn_at IS NULL`;
/** The last scale a cylinder stood on, and whose site that was. */
const LAST_WEIGHED = `LEFT JOIN LATERAL (
      SELECT w.at, f.visit_id, v.site_id, s.name AS site, p.name AS person
      FROM weighing w
      JOIN fact f ON f.tenant_id = w.tenant_id AND f.id = w.fact_id
      LEFT JOIN visit v ON v.tenant_id = f.tenant_id AND v.id = f.visit_id
      LEFT JOIN site s ON s.tenant_id = v.tenant_id AND s.id = v.site_id
      LEFT JOIN person p ON p.tenant_id = f.tenant_id AND p.id = f.by_person_id
      WHERE w.tenant_id = c.tenant_id AND w.cylinder_id = c.id
      ORDER BY w.at DESC, w.id DESC
      LIMIT 1
    ) seen ON true`;

/**
 * $1 the contractor, $2 the cylinder after which to read, $3 part of a serial, label or gas, $4 a gas held, $5 whether
 * empty, $6 whether in doubt, $7 the site where it was last weighed, $8 how many, $9 where it is kept, $10 lost, gone or
 * nowhere; null asks for all. One that is gone is found by its text, or where it is asked for.
 */
export const CYLINDER_LIST: Statement<CylinderListRow> = {
  text: `
    SELECT c.id, c.serial, c.label, c.kind, c.specification, c.dedicated_to AS "dedicatedTo", o.name AS owner,
      c.water_capacity_kg::float8 AS "waterCapacityKg", c.service_pressure_kpa_gauge::float8 AS "servicePressureKpaGauge",
      c.tested_month AS "testedMonth", l.id AS "placeId", l.name AS "placeName", c.lost_at AS "lostAt", c.gone_how AS "goneHow", a.id AS "accountId", (
        SELECT t.grams FROM cylinder_tare t
        WHERE t.tenant_id = c.tenant_id AND t.cylinder_id = c.id
        ORDER BY t.from_at DESC, t.recorded_at DESC, t.id DESC
        LIMIT 1) AS "tareGrams",
      coalesce((
        SELECT jsonb_agg(jsonb_build_object('refrigerant', b.refrigerant, 'owner', b.owner, 'state', b.state, 'grams', b.grams)
          ORDER BY b.grams DESC, b.refrigerant)
        ${HELD}), '[]') AS contents,
      coalesce((
        SELECT jsonb_agg(jsonb_build_object('cause', t.cause, 'originFactId', t.from_fact_id, 'lowGrams', coalesce(t.low_grams, 0),
            'highGrams', t.high_grams, 'confirmedBy', t.confirmed_by_fact,
            'originHighGrams', CASE WHEN t.via_fact_id IS NULL THEN t.high_grams ELSE t.origin_high_grams END)
          ORDER BY t.created_at, t.id)
        ${DOUBTED}), '[]') AS doubts,
      seen.at AS "weighedAt", seen.person AS "weighedBy", seen.site AS "weighedAtSite", seen.visit_id AS "visitId"
    FROM cylinder c
    LEFT JOIN customer o ON o.tenant_id = c.tenant_id AND o.id = c.owner_customer_id
    LEFT JOIN location l ON l.tenant_id = c.tenant_id AND l.id = c.location_id
    LEFT JOIN gas_account a ON a.tenant_id = c.tenant_id AND a.cylinder_id = c.id
    ${LAST_WEIGHED}
    WHERE c.tenant_id = $1::uuid AND c.merged_into_id IS NULL AND c.withdrawn_at IS NULL AND ($2::uuid IS NULL OR c.id > $2::uuid)
      AND ($3::text IS NULL OR strpos(lower(concat_ws(' ', c.serial, c.label, c.dedicated_to)), lower($3::text)) > 0
        OR EXISTS (SELECT ${HELD} AND strpos(lower(b.refrigerant), lower($3::text)) > 0))
      AND ($4::text IS NULL OR EXISTS (SELECT ${HELD} AND b.refrigerant = $4::text))
      AND ($5::boolean IS NULL OR $5::boolean <> EXISTS (SELECT ${HELD}))
      AND ($6::boolean IS NULL OR $6::boolean = EXISTS (SELECT ${DOUBTED}))
      AND ($7::uuid IS NULL OR seen.site_id = $7::uuid)
      AND ($9::uuid IS NULL OR c.location_id = $9::uuid)
      AND CASE $10::text
        WHEN 'lost' THEN c.lost_at IS NOT NULL
        WHEN 'gone' THEN c.gone_at IS NOT NULL
        WHEN 'nowhere' THEN c.location_id IS NULL AND c.lost_at IS NULL AND c.gone_at IS NULL
        ELSE c.gone_at IS NULL OR $3::text IS NOT NULL END
    ORDER BY c.id
    LIMIT $8::int`,
  row: Row,
};

const Choices = z.object({
  gases: z.array(z.string()),
  places: z.array(z.object({ id: z.string(), name: z.string() })),
  kept: z.array(
    z.object({
      place: z.string(),
      name: z.string().nullable(),
      kind: z.string().nullable(),
      keeper: z.string().nullable(),
      cylinders: z.number(),
    }),
  ),
});
/** $1 the contractor: what the list can be asked for. */
export const CYLINDER_CHOICES: Statement<z.output<typeof Choices>> = {
  text: `
    SELECT
      (SELECT coalesce(jsonb_agg(DISTINCT b.refrigerant), '[]') FROM balance b
        WHERE b.tenant_id = $1::uuid AND b.kind = 'cylinder' AND b.grams > 0) AS gases,
      (SELECT coalesce(jsonb_agg(jsonb_build_object('id', place.id, 'name', place.name) ORDER BY place.name, place.id), '[]')
        FROM (
          SELECT DISTINCT seen.site_id AS id, seen.site AS name FROM cylinder c
          ${LAST_WEIGHED}
          WHERE c.tenant_id = $1::uuid AND c.merged_into_id IS NULL AND c.withdrawn_at IS NULL
            AND seen.site_id IS NOT NULL) place) AS places,
      (SELECT coalesce(jsonb_agg(to_jsonb(kept) ORDER BY kept.kind, kept.name, kept.place), '[]')
        FROM (
          SELECT CASE WHEN c.gone_at IS NOT NULL THEN 'gone' WHEN c.lost_at IS NOT NULL THEN 'lost'
              ELSE coalesce(l.id::text, 'nowhere') END AS place, l.name, l.kind, p.name AS keeper, count(*)::int AS cylinders
          FROM cylinder c
          LEFT JOIN location l ON l.tenant_id = c.tenant_id AND l.id = c.location_id
          LEFT JOIN person p ON p.tenant_id = l.tenant_id AND p.id = l.keeper_id
          WHERE c.tenant_id = $1::uuid AND c.merged_into_id IS NULL AND c.withdrawn_at IS NULL
          GROUP BY 1, 2, 3, 4) kept) AS kept`,
  row: Choices,
};
