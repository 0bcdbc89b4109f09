import type pg from 'pg';

/** What sign-in itself writes, whoever signs in. */
const OWN_SIGN_IN = new Set(['auth.session', 'auth.attempt', 'auth.verification']);

/** A checksum over the rows of each table, seen as a superuser; sign-in's own tables aside. */
export async function checksums(admin: pg.Client): Promise<Record<string, string>> {
  const tables = await admin.query<{ schema: string; name: string }>(
    `SELECT table_schema AS schema, table_name AS name FROM information_schema.tables
     WHERE table_schema IN ('public', 'auth') AND table_type = 'BASE TABLE' ORDER BY 1, 2`,
  );
  const sums: Record<string, string> = {};
  for (const { schema, name } of tables.rows) {
    if (OWN_SIGN_IN.has(`${schema}.${name}`)) continue;
    const table = `${admin.escapeIdentifier(schema)}.${admin.escapeIdentifier(name)}`;
    const sum = await admin.query<{ sum: string }>(
      `SELECT count(*) || ' ' || coalesce(md5(string_agg(t::text, E'\\n' ORDER BY t::text)), '') AS sum FROM ${table} t`,
    );
    sums[`${schema}.${name}`] = sum.rows[0]?.sum ?? '';
  }
  return sums;
}
