/** What rests on an import: real work and records that came after it. While there is any, it is not taken back. */
import { txQuery } from '@ullage/database';
import type { Statement, Tx } from '@ullage/database';
import * as z from 'zod';

const Rest = z.object({ what: z.enum(['work', 'visit', 'circuit', 'unit', 'site', 'cylinder']), name: z.string() });
type Rest = z.output<typeof Rest>;

/** Facts that came after the import began, at circuits it made or wrote to, and visits to circuits it made. */
const WORK = `
  SELECT DISTINCT 'work' AS what, unit.tag || '-' || circuit.letter AS name
  FROM made
  JOIN circuit ON circuit.tenant_id = $1::uuid AND circuit.id = made.on_circuit_id
  JOIN unit ON unit.tenant_id = circuit.tenant_id AND unit.id = circuit.unit_id
  JOIN fact ON fact.tenant_id = circuit.tenant_id AND fact.circuit_id = circuit.id
  JOIN import_run run ON run.tenant_id = $1::uuid AND run.id = $2::uuid
  WHERE fact.recorded_at >= run.started_at AND fact.kind <> 'withdrawal'
  AND NOT EXISTS (SELECT FROM import_row own WHERE own.tenant_id = fact.tenant_id AND own.import_id = $2::uuid
    AND own.command_id = fact.command_id)
  AND NOT EXISTS (SELECT FROM fact back WHERE back.tenant_id = fact.tenant_id AND back.corrects_id = fact.id
    AND back.kind = 'withdrawal')
  UNION ALL
  SELECT DISTINCT 'visit', unit.tag || '-' || circuit.letter
  FROM made
  JOIN circuit ON circuit.tenant_id = $1::uuid AND circuit.id = made.made_circuit_id
  JOIN unit ON unit.tenant_id = circuit.tenant_id AND unit.id = circuit.unit_id
  JOIN visit_circuit link ON link.tenant_id = circuit.tenant_id AND link.circuit_id = circuit.id
  JOIN visit ON visit.tenant_id = link.tenant_id AND visit.id = link.visit_id
  WHERE visit.state <> 'cancelled' AND (visit.state <> 'proposed' OR visit.purpose = 'call')`;

/** Records of others that stand in what it made. */
const CHILDREN = `
  UNION ALL
  SELECT DISTINCT 'circuit', unit.tag || '-' || circuit.letter
  FROM circuit JOIN unit ON unit.tenant_id = circuit.tenant_id AND unit.id = circuit.unit_id
  WHERE circuit.tenant_id = $1::uuid AND circuit.withdrawn_at IS NULL
  AND circuit.unit_id IN (SELECT made_unit_id FROM made)
  AND circuit.id NOT IN (SELECT made_circuit_id FROM made WHERE made_circuit_id IS NOT NULL)
  UNION ALL
  SELECT DISTINCT 'unit', unit.tag FROM unit
  WHERE unit.tenant_id = $1::uuid AND unit.withdrawn_at IS NULL AND unit.site_id IN (SELECT made_site_id FROM made)
  AND unit.id NOT IN (SELECT made_unit_id FROM made WHERE made_unit_id IS NOT NULL)
  UNION ALL
  SELECT DISTINCT 'site', site.name FROM site
  WHERE site.tenant_id = $1::uuid AND site.withdrawn_at IS NULL AND site.customer_id IN (SELECT made_customer_id FROM made)
  AND site.id NOT IN (SELECT made_site_id FROM made WHERE made_site_id IS NOT NULL)
  UNION ALL
  SELECT DISTINCT 'cylinder', cylinder.serial FROM cylinder
  WHERE cylinder.tenant_id = $1::uuid AND cylinder.owner_customer_id IN (SELECT made_customer_id FROM made)`;

const MADE = `WITH made AS (
  SELECT made_customer_id, made_site_id, made_unit_id, made_circuit_id, on_circuit_id FROM import_row
  WHERE tenant_id = $1::uuid AND import_id = $2::uuid AND state IN ('done', 'kept')`;
const statement = (text: string): Statement<Rest> => ({ text: `${text} ORDER BY what, name LIMIT 21`, row: Rest });
const OF_IMPORT = statement(`${MADE}) ${WORK} ${CHILDREN}`);
const OF_ROW = statement(`${MADE} AND number = $3) ${WORK}`);

const WORDS: Readonly<Record<Rest['what'], (name: string) => string>> = {
  work: (name) => `${name}: work was recorded after the import.`,
  visit: (name) => `${name}: a visit is asked for, planned or done.`,
  circuit: (name) => `${name}: this circuit was entered into one of its units.`,
  unit: (name) => `Unit ${name} was entered at one of its sites.`,
  site: (name) => `Site ${name} was entered for one of its customers.`,
  cylinder: (name) => `Cylinder ${name} belongs to one of its customers.`,
};
const SHOWN = 20;

/** Each thing that rests on the import as a sentence; the first twenty, and that there are more. */
export async function restsOnImport(tx: Tx, tenantId: string, importId: string): Promise<string[]> {
  const rests = await txQuery(tx, OF_IMPORT, [tenantId, importId]);
  const words = rests.slice(0, SHOWN).map(({ what, name }) => WORDS[what](name));
  return rests.length > SHOWN ? [...words, 'And more.'] : words;
}

/** What rests on the circuit of one row; undefined when nothing does. */
export async function restsOnRow(
  tx: Tx,
  tenantId: string,
  row: { readonly importId: string; readonly number: number },
): Promise<string | undefined> {
  const [first] = await txQuery(tx, OF_ROW, [tenantId, row.importId, row.number]);
  return first && WORDS[first.what](first.name);
}
