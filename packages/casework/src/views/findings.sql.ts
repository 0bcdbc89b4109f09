import type { Statement } from '@ullage/database';
import * as z from 'zod';

const Row = z.object({ equipment: z.string(), use: z.string(), place: z.string(), leaks: z.int() });
/** $1 the contractor: the leaks it has located, by kind of equipment, use and place. */
export const FINDINGS: Statement<z.output<typeof Row>> = {
  text: `
  SELECT c.equipment, c.use, l.place, count(*)::int AS leaks
  FROM leak_point l JOIN circuit c ON c.tenant_id = l.tenant_id AND c.id = l.circuit_id
  WHERE l.tenant_id = $1::uuid
  GROUP BY c.equipment, c.use, l.place`,
  row: Row,
};
