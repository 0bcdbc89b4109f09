/** What rests on an import: real work and records that came after it. While there is any, it is not taken back. */
import { txQuery } from '@ullage/database';
import type { Statement, Tx } from '@ullage/database';
import * as z from 'zod';

const Rest = z.object({
  what: z.enum(['work', 'visit', 'circuit', 'unit', 'site', 'cylinder', 'gas', 'person', 'certificate', 'papers']),
  name: z.string(),
});
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

/** Facts at cylinders it registered: what was weighed, drawn, filled, checked or handed over. */
const GAS = `
  UNION ALL
  SELECT DISTINCT 'gas', cylinder.serial
  FROM made
  JOIN cylinder ON cylinder.tenant_id = $1::uuid AND cylinder.id = made.made_cylinder_id
  JOIN fact_ref ON fact_ref.tenant_id = cylinder.tenant_id AND fact_ref.cylinder_id = cylinder.id
  JOIN fact ON fact.tenant_id = fact_ref.tenant_id AND fact.id = fact_ref.fact_id
  WHERE fact.kind NOT IN ('cylinder-registered', 'withdrawal')`;

/**
 * What people it entered, or certified, are in by now: a sign-in, a tool or a van, a visit; work of those it certified
 * since it began, for the papers of that work name the certificate; and a certificate that was changed.
 */
const PEOPLE = `
  UNION ALL
  SELECT DISTINCT 'person', person.name
  FROM made
  JOIN person ON person.tenant_id = $1::uuid AND person.id = made.made_person_id
  WHERE person.user_id IS NOT NULL
    OR EXISTS (SELECT FROM instrument WHERE instrument.tenant_id = person.tenant_id AND instrument.carrier_id = person.id)
    OR EXISTS (SELECT FROM location WHERE location.tenant_id = person.tenant_id AND location.keeper_id = person.id)
    OR EXISTS (SELECT FROM visit_person WHERE visit_person.tenant_id = person.tenant_id AND visit_person.person_id = person.id)
  UNION ALL
  SELECT DISTINCT 'certificate', person.name
  FROM certified
  JOIN certificate ON certificate.tenant_id = $1::uuid AND certificate.id = certified.id AND certificate.withdrawn_at IS NULL
  JOIN person ON person.tenant_id = certificate.tenant_id AND person.id = certificate.person_id
  JOIN import_run run ON run.tenant_id = $1::uuid AND run.id = $2::uuid
  WHERE certificate.version > 1
    OR EXISTS (SELECT FROM visit_person JOIN visit ON visit.tenant_id = visit_person.tenant_id AND visit.id = visit_person.visit_id
      WHERE visit_person.tenant_id = person.tenant_id AND visit_person.person_id = person.id
        AND (visit.state IN ('placed', 'on-site') OR visit.finished_at >= run.started_at))`;

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
  WHERE cylinder.tenant_id = $1::uuid AND cylinder.withdrawn_at IS NULL
  AND cylinder.owner_customer_id IN (SELECT made_customer_id FROM made)
  UNION ALL
  SELECT DISTINCT 'papers', person.name
  FROM certificate JOIN person ON person.tenant_id = certificate.tenant_id AND person.id = certificate.person_id
  WHERE certificate.tenant_id = $1::uuid AND certificate.withdrawn_at IS NULL
  AND certificate.person_id IN (SELECT made_person_id FROM made) AND certificate.id NOT IN (SELECT id FROM certified)`;

/** The rows that were carried out, all of them or one, and the certificates they entered. */
const madeBy = (rows: string) => `WITH made AS (
  SELECT made_customer_id, made_site_id, made_unit_id, made_circuit_id, made_cylinder_id, made_person_id, on_circuit_id,
    CASE WHEN command_kind = 'register-person' THEN body -> 'certificates' ELSE '[]' END AS certificates
  FROM import_row
  WHERE tenant_id = $1::uuid AND import_id = $2::uuid AND state IN ('done', 'kept')${rows}
), certified AS (SELECT (entry ->> 'id')::uuid AS id FROM made, jsonb_array_elements(certificates) AS entry)`;
const statement = (text: string): Statement<Rest> => ({ text: `${text} ORDER BY what, name LIMIT 21`, row: Rest });
const OF_IMPORT = statement(`${madeBy('')} ${WORK} ${GAS} ${PEOPLE} ${CHILDREN}`);
const OF_ROW = statement(`${madeBy(' AND number = $3')} ${WORK} ${GAS} ${PEOPLE}`);

const WORDS: Readonly<Record<Rest['what'], (name: string) => string>> = {
  work: (name) => `${name}: work was recorded after the import.`,
  visit: (name) => `${name}: a visit is asked for, planned or done.`,
  circuit: (name) => `${name}: this circuit was entered into one of its units.`,
  unit: (name) => `Unit ${name} was entered at one of its sites.`,
  site: (name) => `Site ${name} was entered for one of its customers.`,
  cylinder: (name) => `Cylinder ${name} belongs to one of its customers.`,
  gas: (name) => `Cylinder ${name}: it was weighed, used or handed over since.`,
  person: (name) => `${name}: signs in, is on a visit, or has a tool or a place to keep.`,
  certificate: (name) => `${name}: a visit rests on the certificate, or it was changed since.`,
  papers: (name) => `${name}: another certificate was entered since.`,
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
