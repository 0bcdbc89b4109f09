/**
 * What must hold of the database by PostgreSQL's own catalogue. Each rule gives the breaches it finds, in words, and
 * comes with a breach to plant, so that a rule that finds nothing is known to look.
 */
import type pg from 'pg';

export interface Rule {
  readonly name: string;
  /** One row per breach. */
  readonly breaches: string;
  /** Statements that break it. */
  readonly plant: readonly string[];
  /** What the breach is then called, or a part of it. */
  readonly seenAs: string;
}

/** Tables of the public schema that belong to no tenant: the tenant itself and the list of migrations. */
export const NOT_A_TENANTS = ['tenant', '_prisma_migrations'] as const;
const OURS = `NOT IN (${NOT_A_TENANTS.map((name) => `'${name}'`).join(', ')})`;
const TABLES = `pg_class t WHERE t.relnamespace = 'public'::regnamespace AND t.relkind IN ('r', 'p')`;
/** Logins that the product runs as; the owner migrates and nothing else. */
export const PRODUCT_LOGINS = ['ullage_app', 'ullage_auth', 'ullage_queue', 'ullage_relay'] as const;
const LOGINS = PRODUCT_LOGINS.map((name) => `'${name}'`).join(', ');
/** Append-only: a mistake is answered by a further row. */
export const APPEND_ONLY = ['movement', 'fact', 'fact_ref', 'weighing', 'cylinder_tare', 'audit', 'feed'] as const;

const KEYS: readonly Rule[] = [
  {
    name: 'the primary key of every table of a tenant begins with tenant_id',
    breaches: `SELECT t.relname || ': primary key' AS breach FROM ${TABLES} AND t.relname ${OURS} AND NOT EXISTS (
      SELECT FROM pg_index i JOIN pg_attribute a ON a.attrelid = t.oid AND a.attnum = i.indkey[0]
      WHERE i.indrelid = t.oid AND i.indisprimary AND a.attname = 'tenant_id')`,
    plant: ['CREATE TABLE planted (id uuid PRIMARY KEY, tenant_id uuid)'],
    seenAs: 'planted: primary key',
  },
  {
    name: 'every unique index begins with tenant_id',
    breaches: `SELECT t.relname || ': ' || c.relname AS breach FROM ${TABLES.replace('t WHERE', 't JOIN pg_index i ON i.indrelid = t.oid JOIN pg_class c ON c.oid = i.indexrelid WHERE')}
      AND t.relname ${OURS} AND i.indisunique AND NOT EXISTS (
      SELECT FROM pg_attribute a WHERE a.attrelid = t.oid AND a.attnum = i.indkey[0] AND a.attname = 'tenant_id')`,
    plant: ['CREATE UNIQUE INDEX planted_by_serial ON cylinder (serial, tenant_id)'],
    seenAs: 'cylinder: planted_by_serial',
  },
  {
    name: 'every foreign key pairs tenant_id with the tenant_id of what it points at',
    breaches: `SELECT c.conrelid::regclass || ': ' || c.conname AS breach FROM pg_constraint c
      WHERE c.contype = 'f' AND c.connamespace = 'public'::regnamespace AND NOT EXISTS (
        SELECT FROM unnest(c.conkey, c.confkey) AS pair (here, there)
        JOIN pg_attribute h ON h.attrelid = c.conrelid AND h.attnum = pair.here AND h.attname = 'tenant_id'
        JOIN pg_attribute o ON o.attrelid = c.confrelid AND o.attnum = pair.there
         AND o.attname = CASE WHEN c.confrelid = 'tenant'::regclass THEN 'id' ELSE 'tenant_id' END)`,
    plant: [
      'CREATE UNIQUE INDEX planted_id ON visit (id)',
      'ALTER TABLE fact ADD CONSTRAINT planted_visit FOREIGN KEY (visit_id) REFERENCES visit (id)',
    ],
    seenAs: 'fact: planted_visit',
  },
];

const WALLS: readonly Rule[] = [
  {
    name: 'row-level security is enabled and forced on every table but the list of migrations, with a policy',
    breaches: `SELECT t.relname || CASE WHEN NOT t.relrowsecurity THEN ': not enabled' WHEN NOT t.relforcerowsecurity
        THEN ': not forced' ELSE ': no policy' END AS breach
      FROM ${TABLES} AND t.relname <> '_prisma_migrations' AND NOT (t.relrowsecurity AND t.relforcerowsecurity
        AND EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = t.oid))`,
    plant: ['ALTER TABLE movement NO FORCE ROW LEVEL SECURITY'],
    seenAs: 'movement: not forced',
  },
  {
    name: 'a policy lets through the rows of the tenant that is set, and nothing else, unless it is on the list',
    breaches: `SELECT p.tablename || ': ' || p.policyname AS breach FROM pg_policies p WHERE p.schemaname = 'public'
      AND p.policyname <> 'due_everywhere' AND (coalesce(p.qual, '') <> coalesce(p.with_check, 'none')
        OR p.permissive <> 'PERMISSIVE' OR p.qual <> format('(%s = ( SELECT current_tenant() AS current_tenant))',
          CASE p.tablename WHEN 'tenant' THEN 'id' ELSE 'tenant_id' END))`,
    plant: ['CREATE POLICY planted ON fact FOR SELECT TO ullage_app USING (true)'],
    seenAs: 'fact: planted',
  },
  {
    name: 'a view asks with the rights of who looks; what is materialised passes the wall and is not there',
    breaches: `SELECT c.relname || CASE c.relkind WHEN 'm' THEN ': materialised' ELSE ': not security_invoker' END AS breach
      FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND (c.relkind = 'm' OR (c.relkind = 'v'
        AND NOT coalesce(c.reloptions && ARRAY['security_invoker=true', 'security_invoker=on'], false)))`,
    plant: [
      'CREATE VIEW planted_view AS SELECT id FROM movement',
      'CREATE MATERIALIZED VIEW planted_heap AS SELECT id FROM movement',
      'CREATE VIEW good_view WITH (security_invoker = true) AS SELECT id FROM movement',
    ],
    seenAs: 'planted_heap: materialised, planted_view: not security_invoker',
  },
];

const LOGIN_RULES: readonly Rule[] = [
  {
    name: 'the product’s logins have no power over the server and belong to no role that has',
    breaches: `SELECT rolname || ': power' AS breach FROM pg_roles WHERE rolname IN (${LOGINS})
        AND (rolsuper OR rolbypassrls OR rolcreaterole OR rolcreatedb OR rolreplication)
      UNION ALL SELECT member::regrole || ': member of ' || roleid::regrole FROM pg_auth_members
        WHERE member::regrole::text IN (${LOGINS})`,
    plant: ['ALTER ROLE ullage_app BYPASSRLS', 'GRANT ullage_owner TO ullage_relay'],
    seenAs: 'ullage_app: power, ullage_relay: member of ullage_owner',
  },
  {
    name: 'the product’s logins own nothing here',
    breaches: `SELECT r.rolname || ': ' || pg_describe_object(d.classid, d.objid, d.objsubid) AS breach FROM pg_shdepend d
      JOIN pg_roles r ON d.refclassid = 'pg_authid'::regclass AND r.oid = d.refobjid
      WHERE d.deptype = 'o' AND r.rolname IN (${LOGINS})
        AND d.dbid IN (0, (SELECT oid FROM pg_database WHERE datname = current_database()))`,
    plant: [
      'CREATE TABLE planted (id int)',
      'GRANT CREATE ON SCHEMA public TO ullage_app',
      'ALTER TABLE planted OWNER TO ullage_app',
    ],
    seenAs: 'ullage_app: table planted',
  },
  {
    name: 'nobody but the owner may create in the public schema or the sign-in library’s',
    breaches: `SELECT n.nspname || ': ' || coalesce(nullif(a.grantee, 0)::regrole::text, 'PUBLIC') || ' ' || a.privilege_type AS breach
      FROM pg_namespace n, aclexplode(n.nspacl) a WHERE n.nspname IN ('public', 'auth') AND a.grantee <> n.nspowner
      AND (a.privilege_type = 'CREATE' OR a.grantee = 0) AND a.grantee <> 'ullage_owner'::regrole`,
    plant: ['GRANT CREATE ON SCHEMA public TO ullage_relay'],
    seenAs: 'public: ullage_relay CREATE',
  },
  {
    name: 'a row is changed column by column: nobody may change a whole row of the public schema',
    breaches: `SELECT t.relname || ': ' || a.grantee::regrole || ' ' || a.privilege_type AS breach FROM ${TABLES.replace(' t WHERE', ' t, aclexplode(t.relacl) a WHERE')}
      AND a.privilege_type = 'UPDATE' AND a.grantee::regrole::text IN (${LOGINS})`,
    plant: ['GRANT UPDATE ON site TO ullage_app'],
    seenAs: 'site: ullage_app UPDATE',
  },
  {
    name: 'which row it is, whose, what it points back to and when it was written is never changed',
    breaches: `SELECT t.relname || ': ' || c.attname AS breach FROM ${TABLES.replace(' t WHERE', ' t JOIN pg_attribute c ON c.attrelid = t.oid, aclexplode(c.attacl) a WHERE')}
      AND a.privilege_type = 'UPDATE' AND a.grantee::regrole::text IN (${LOGINS})
      AND (c.attname IN ('created_at', 'recorded_at', 'received_at', 'command_id', 'user_id', 'hash', 'envelope')
        OR EXISTS (SELECT FROM pg_index i WHERE i.indrelid = t.oid AND i.indisprimary AND c.attnum = ANY (i.indkey)))`,
    plant: ['GRANT UPDATE (envelope) ON command TO ullage_app', 'GRANT UPDATE (duty_id) ON visit_duty TO ullage_app'],
    seenAs: 'command: envelope, visit_duty: duty_id',
  },
  {
    name: 'no grant is handed on by default to tables that are yet to come',
    breaches: `SELECT defaclrole::regrole || ': default privileges' AS breach FROM pg_default_acl`,
    plant: ['ALTER DEFAULT PRIVILEGES FOR ROLE ullage_owner GRANT SELECT ON TABLES TO ullage_app'],
    seenAs: 'ullage_owner: default privileges',
  },
];

const STANDS: readonly Rule[] = [
  {
    name: 'each append-only table refuses update, delete and truncation by triggers that are switched on',
    breaches: `SELECT name || ': ' || verb AS breach FROM unnest(ARRAY[${APPEND_ONLY.map((name) => `'${name}'`).join(', ')}]) AS name,
      (VALUES ('UPDATE', 16), ('DELETE', 8), ('TRUNCATE', 32)) AS verbs (verb, bit) WHERE NOT EXISTS (
        SELECT FROM pg_trigger g WHERE g.tgrelid = name::regclass AND g.tgfoid = 'refuse_change()'::regprocedure
        AND g.tgtype & 2 = 2 AND g.tgtype & verbs.bit = verbs.bit AND g.tgenabled IN ('O', 'A'))`,
    plant: ['ALTER TABLE movement DISABLE TRIGGER movement_stands', 'DROP TRIGGER feed_is_not_emptied ON feed'],
    seenAs: 'feed: TRUNCATE, movement: DELETE, movement: UPDATE',
  },
];

export const RULES: readonly Rule[] = [...KEYS, ...WALLS, ...LOGIN_RULES, ...STANDS];

/** What a rule finds, in order. */
export async function breachesOf(client: pg.Client, rule: Rule): Promise<string[]> {
  const found = await client.query<{ breach: string }>(rule.breaches);
  return found.rows.map((row) => row.breach).sort();
}
