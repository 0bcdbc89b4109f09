import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Row = z.object({
  circuitId: z.string(),
  unitId: z.string(),
  letter: z.string(),
  unitTag: z.string(),
  description: z.string().nullable(),
  site: z.string(),
  customer: z.string(),
  refrigerant: z.string(),
  knownSince: z.string().nullable(),
  added: z.boolean(),
});
export type FleetRow = z.output<typeof Row>;

/**
 * $1 the contractor, $2 a day: every circuit in service, since when it is known (the later of its installation and the
 * first thing on record), and whether gas went in since that day. One statement, whatever the size of the fleet.
 */
export const FLEET: Statement<FleetRow> = {
  text: `
    SELECT c.id AS "circuitId", u.id AS "unitId", c.letter, u.tag AS "unitTag", u.description, s.name AS site,
      o.name AS customer, c.refrigerant,
      greatest(c.installed_on, past.first_day)::text AS "knownSince", coalesce(past.added, false) AS added
    FROM circuit c
    JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id
    JOIN site s ON s.tenant_id = u.tenant_id AND s.id = u.site_id
    JOIN customer o ON o.tenant_id = s.tenant_id AND o.id = s.customer_id
    LEFT JOIN (
      SELECT f.circuit_id, min(told.day) AS first_day,
        bool_or(f.kind IN ('charge', 'past-addition') AND told.day >= $2::date) AS added
      FROM fact f
      JOIN circuit fc ON fc.tenant_id = f.tenant_id AND fc.id = f.circuit_id
      JOIN unit fu ON fu.tenant_id = fc.tenant_id AND fu.id = fc.unit_id
      JOIN site fs ON fs.tenant_id = fu.tenant_id AND fs.id = fu.site_id
      CROSS JOIN LATERAL (SELECT coalesce(f.happened_on, (f.happened_at AT TIME ZONE fs.time_zone)::date) AS day) told
      WHERE f.tenant_id = $1::uuid AND f.kind NOT IN ('correction', 'withdrawal')
        AND NOT EXISTS (SELECT FROM fact back WHERE back.tenant_id = f.tenant_id AND back.corrects_id = f.id AND back.kind = 'withdrawal')
      GROUP BY f.circuit_id
    ) past ON past.circuit_id = c.id
    WHERE c.tenant_id = $1::uuid AND c.closed_at IS NULL AND c.withdrawn_at IS NULL
    ORDER BY c.id`,
  row: Row,
};
