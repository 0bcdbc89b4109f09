import type { Client } from 'pg';
import * as z from 'zod';

/** What opens a door for a while: whoever signed out or used a link after the backup must not come in by it again. */
export const LEFT_OUT: readonly string[] = ['auth.session', 'auth.verification', 'auth.attempt'];

/** One table of ours, its names quoted for SQL. */
export interface Table {
  /** Schema and name, `public.movement`. */
  readonly name: string;
  readonly columns: readonly string[];
  /** The primary key, in an order that does not depend on the server's language. */
  readonly order: string;
  /** The column with the contractor; undefined for the sign-in library's tables, which stand above them. */
  readonly tenantColumn: string | undefined;
  /** Tables that must be filled before this one. */
  readonly after: readonly string[];
}

const Row = z.object({
  name: z.string(),
  columns: z.array(z.string()),
  order: z.string(),
  walled: z.boolean(),
  after: z.array(z.string()),
});
const TABLES = `
  SELECT format('%I.%I', n.nspname, c.relname) AS name, c.relrowsecurity AS walled,
    ARRAY(SELECT quote_ident(a.attname) FROM pg_attribute a
      WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' ORDER BY a.attnum) AS columns,
    (SELECT string_agg(quote_ident(a.attname) || CASE WHEN a.attcollation <> 0 THEN ' COLLATE "C"' ELSE '' END, ', ' ORDER BY k.i)
      FROM pg_index i, unnest(i.indkey::int2[]) WITH ORDINALITY k(n, i)
      JOIN pg_attribute a ON a.attnum = k.n WHERE i.indrelid = c.oid AND i.indisprimary AND a.attrelid = c.oid) AS "order",
    ARRAY(SELECT DISTINCT f.confrelid::regclass::oid::int8 FROM pg_constraint f WHERE f.conrelid = c.oid AND f.contype = 'f'
      AND f.confrelid <> c.oid) AS parents, c.oid::int8 AS oid
  FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  WHERE n.nspname IN ('public', 'auth') AND c.relkind = 'r' AND c.relname <> '_prisma_migrations'`;
const NAMED = `
  WITH tables AS (${TABLES})
  SELECT t.name, t.columns, t."order", t.walled, ARRAY(SELECT p.name FROM tables p WHERE p.oid = ANY(t.parents) ORDER BY p.name) AS after
  FROM tables t ORDER BY t.name COLLATE "C"`;

/** Parents before children, otherwise by name. @throws Error when tables point at each other in a ring */
export function inOrder(tables: readonly Table[]): Table[] {
  const done = new Set<string>();
  const sorted: Table[] = [];
  while (sorted.length < tables.length) {
    const ready = tables.filter(({ name, after }) => !done.has(name) && after.every((parent) => done.has(parent)));
    if (ready.length === 0) throw new Error('Tables point at each other in a ring: there is no order to fill them in.');
    for (const table of ready) done.add(table.name);
    sorted.push(...ready);
  }
  return sorted;
}

/** All tables that a backup carries, as the database's own catalogue says, in the order in which they can be filled. */
export async function tablesOf(client: Client): Promise<Table[]> {
  const { rows } = await client.query(NAMED);
  const all = rows.map((row): Table => {
    const { walled, ...table } = Row.parse(row);
    const column = table.name === 'public.tenant' ? 'id' : 'tenant_id';
    return { ...table, tenantColumn: walled ? column : undefined };
  });
  return inOrder(all.filter(({ name }) => !LEFT_OUT.includes(name)));
}
