/**
 * Many contractors of many units, from one that was told through real commands: its rows are copied under new ids, past
 * triggers and foreign keys, for what reading and one more command cost. Times stay; tags and serial numbers get a suffix.
 * Balances of the outside accounts are added up; the feed, the trail and the queue's messages are not copied.
 */
import pg from 'pg';

const TABLES = [
  ...['person', 'certificate', 'location', 'instrument', 'customer', 'facility', 'facility_method', 'site', 'contact'],
  ...['unit', 'circuit', 'full_charge', 'visit', 'visit_circuit', 'visit_person', 'visit_duty', 'fact', 'fact_ref'],
  ...['leak_point', 'cylinder', 'cylinder_tare', 'weighing', 'gas_account', 'movement', 'balance', 'taint'],
  ...['calculation', 'episode', 'duty', 'duty_evidence', 'reminder', 'notice', 'gas_price'],
] as const;
/** One of each for a contractor, however much work it has. */
const ONCE = new Set(['person', 'certificate', 'location', 'instrument', 'gas_price']);
/** Named by people, and once in a contractor or at a site. */
const SUFFIXED: Readonly<Record<string, readonly string[]>> = {
  customer: ['name'],
  site: ['name'],
  unit: ['tag'],
  cylinder: ['serial', 'label'],
};
/** The accounts that come with a contractor. */
const OUTSIDE = `kind NOT IN ('circuit', 'cylinder')`;
/** A balance of an outside account is one for all copies. */
const ADDED_UP = 'AND (t.n = 1 OR NOT t.kept ? o.account_id::text)';
/** A new id that keeps the old one's time and version, so that order and shape stay. */
const SCATTER = `
  CREATE OR REPLACE FUNCTION pg_temp.scatter(old uuid, n integer) RETURNS uuid LANGUAGE sql IMMUTABLE STRICT AS $$
    SELECT (substr(replace(old::text, '-', ''), 1, 12) || '7' || substr(h, 1, 3) || '8' || substr(h, 4, 15))::uuid
    FROM md5(old::text || n::text) AS h $$`;

export interface Target {
  /** A contractor without work of its own. */
  readonly tenantId: string;
  readonly times: number;
}
interface Column {
  readonly table: string;
  readonly name: string;
  readonly type: string;
}

/** `from` as often as asked into each of the targets. As superuser. */
export async function multiply(admin: pg.Client, from: string, targets: readonly Target[]): Promise<void> {
  await admin.query(SCATTER);
  await admin.query('CREATE TEMP TABLE target (tenant uuid, times integer, n integer, kept jsonb)');
  await admin.query(
    `INSERT INTO target SELECT t.tenant, t.times, n, jsonb_build_object($3::text, t.tenant) || coalesce(accounts.ids, '{}') || people.ids
     FROM unnest($1::uuid[], $2::integer[]) AS t (tenant, times)
     CROSS JOIN LATERAL generate_series(1, t.times) AS n
     CROSS JOIN LATERAL (
       SELECT jsonb_object_agg(old.id, own.id) AS ids FROM gas_account old
       JOIN gas_account own ON own.tenant_id = t.tenant AND own.kind = old.kind
       WHERE old.tenant_id = $3::uuid AND old.${OUTSIDE}) AS accounts
     CROSS JOIN LATERAL (
       SELECT jsonb_object_agg(id, pg_temp.scatter(id, 1)) AS ids FROM (
         SELECT id FROM person WHERE tenant_id = $3::uuid UNION SELECT id FROM instrument WHERE tenant_id = $3::uuid
         UNION SELECT id FROM location WHERE tenant_id = $3::uuid) AS whose) AS people`,
    [targets.map(({ tenantId }) => tenantId), targets.map(({ times }) => times), from],
  );
  const { rows: columns } = await admin.query<Column>(
    `SELECT table_name AS table, column_name AS name, data_type AS type FROM information_schema.columns
     WHERE table_schema = 'public' AND table_name = ANY($1) AND is_generated = 'NEVER' ORDER BY ordinal_position`,
    [TABLES],
  );
  await admin.query(`SET session_replication_role = replica`);
  for (const table of TABLES)
    await admin.query(
      copyOf(
        table,
        columns.filter((column) => column.table === table),
      ),
      [from],
    );
  await admin.query(`SET session_replication_role = origin`);
  await admin.query('DROP TABLE target');
  await admin.query('ANALYZE');
}

function copyOf(table: string, columns: readonly Column[]): string {
  const valueOf = ({ name, type }: Column): string => {
    if (name === 'tenant_id') return 't.tenant';
    if (table === 'person' && (name === 'user_id' || name === 'email' || name === 'role')) return 'NULL';
    if (SUFFIXED[table]?.includes(name) === true) return `o.${name} || '-' || t.n`;
    if (table === 'balance' && name === 'grams')
      return `o.grams * CASE WHEN t.kept ? o.account_id::text THEN t.times ELSE 1 END`;
    if (type !== 'uuid') return `o.${name}`;
    return `coalesce((t.kept ->> o.${name}::text)::uuid, pg_temp.scatter(o.${name}, t.n))`;
  };
  const names = columns.map(({ name }) => name).join(', ');
  const values = columns.map(valueOf).join(', ');
  const rest = table === 'gas_account' ? `AND o.${OUTSIDE.replace(' NOT IN', ' IN')}` : '';
  const once = ONCE.has(table) ? 'AND t.n = 1' : '';
  const again = table === 'balance' ? ADDED_UP : '';
  return `INSERT INTO ${table} (${names}) SELECT ${values} FROM ${table} o CROSS JOIN target t
    WHERE o.tenant_id = $1 ${rest} ${once} ${again}`;
}
