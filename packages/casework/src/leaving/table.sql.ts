/** How a table for people is put down. */

export interface Table {
  readonly name: string;
  /** What the README says of it. */
  readonly about: string;
  readonly heads: readonly string[];
  /** Rows of one column `line`: a JSON array as long as `heads`. */
  readonly query: string;
}
export type Column = readonly [head: string, sql: string];

export function table(
  name: string,
  about: string,
  { columns, from }: { columns: readonly Column[]; from: string },
): Table {
  const line = `json_build_array(${columns.map(([, sql]) => sql).join(', ')})::text`;
  return {
    name: `tables/${name}.csv`,
    about,
    heads: columns.map(([head]) => head),
    query: `SELECT ${line} AS line ${from}`,
  };
}
/** Every join stays within the contractor: the walls let nothing else be seen, and the keys say it too. */
export const join = (other: string, as: string, on: string): string =>
  ` LEFT JOIN ${other} ${as} ON ${as}.tenant_id = t.tenant_id AND ${as}.id = ${on}`;
export const CIRCUIT_TAG = "u.tag || '-' || c.letter";
export const CIRCUIT = `${join('circuit', 'c', 't.circuit_id')} LEFT JOIN unit u ON u.tenant_id = c.tenant_id AND u.id = c.unit_id`;
