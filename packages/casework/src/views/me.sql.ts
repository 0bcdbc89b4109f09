import { CERTIFICATE_TYPES } from '@ullage/contracts';
import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Row = z.object({
  personId: z.string().nullable(),
  person: z.string().nullable(),
  email: z.string().nullable(),
  certificates: z.array(
    z.object({
      id: z.string(),
      type: z.enum(CERTIFICATE_TYPES),
      registeredOn: z.string().nullable(),
      endsOn: z.string().nullable(),
    }),
  ),
  id: z.string(),
  name: z.string(),
  locale: z.string(),
  timeZone: z.string(),
  massUnit: z.string(),
  pressureUnit: z.string(),
  temperatureUnit: z.string(),
  vacuumUnit: z.string(),
  demo: z.boolean(),
});

/** $1 the contractor, $2 the user: who they are there. Read by every page that opens, hence in one round trip. */
export const ME: Statement<z.output<typeof Row>> = {
  text: `
    SELECT t.id, t.name, t.locale, t.time_zone AS "timeZone", t.mass_unit AS "massUnit", t.pressure_unit AS "pressureUnit",
      t.temperature_unit AS "temperatureUnit", t.vacuum_unit AS "vacuumUnit", t.demo, p.id AS "personId", p.name AS person, p.email,
      coalesce((
        SELECT jsonb_agg(jsonb_build_object('id', c.id, 'type', c.type, 'registeredOn', c.registered_on, 'endsOn', c.ends_on)
          ORDER BY c.id)
        FROM certificate c WHERE c.tenant_id = p.tenant_id AND c.person_id = p.id AND c.withdrawn_at IS NULL), '[]') AS certificates
    FROM tenant t LEFT JOIN person p ON p.tenant_id = t.id AND p.user_id = $2
    WHERE t.id = $1`,
  row: Row,
};
