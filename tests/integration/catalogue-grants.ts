/** Who may do what to which table, written by hand: a new table, verb, function or policy without an entry here fails. */
import type pg from 'pg';

const READ = ['SELECT'];
const ADD = ['INSERT', 'SELECT'];
const REMOVE = ['DELETE', 'INSERT', 'SELECT'];
const ALL = ['DELETE', 'INSERT', 'SELECT', 'UPDATE'];

const columns = (verb: string, names: string) => names.split(' ').map((name) => `${verb}(${name})`);
/** Rows are added, and these columns of them changed. */
const change = (names: string) => [...ADD, ...columns('UPDATE', names)];
const SETTINGS =
  'country currency gwp_set locale mass_unit name pressure_unit shop_excess_kpa taking_over temperature_unit time_zone vacuum_unit';

/** Table by table, in the public schema: what the application may do. */
const APPLICATION: Readonly<Record<string, readonly string[]>> = {
  attention: change('closed_at closed_by closed_how holder_id'),
  audit: ADD,
  balance: READ,
  blob: ['INSERT', 'SELECT', ...columns('UPDATE', 'bytes complete_at height media_type state thumbnail width')],
  blob_chunk: REMOVE,
  calculation: change('standing'),
  certificate: change('ends_on registered_on type version withdrawn_at'),
  circuit: change('closed_at decided_by decision_why equipment installed_on letter subsector use withdrawn_at'),
  column_map: change('changed_at matched settings'),
  command: change('answer applied_at state'),
  command_wait: REMOVE,
  contact: change('name phone'),
  customer: change('name withdrawn_at'),
  cylinder: change(
    'dedicated_to gone_at gone_how label location_id lost_at made_month merged_into_id owner_customer_id serial service_pressure_kpa_gauge specification test_kind tested_month water_capacity_kg withdrawn_at',
  ),
  cylinder_tare: ADD,
  device: change('last_seen_at name person_id skew_ms'),
  duty: change(
    'clause due_at due_on every_months flags leak_point_ids opens_at provisional responsible rulebook_version since_at state updated_at version why',
  ),
  duty_evidence: REMOVE,
  episode: change('closed_at opened_at state updated_at'),
  facility: change('name'),
  facility_method: ADD,
  fact: ADD,
  fact_ref: ADD,
  feed: ADD,
  feed_counter: ['SELECT', 'UPDATE(number)'],
  full_charge: ADD,
  gas_bill: change('undone_at undone_by'),
  gas_price: change('withdrawn_at withdrawn_by'),
  gas_account: ['INSERT', 'SELECT', 'UPDATE(kind)'], // so that a row can be locked; a trigger refuses the change
  import_file: ADD,
  import_row: change(
    'asks body command_kind faults made_circuit_id made_customer_id made_cylinder_id made_person_id made_site_id made_unit_id makes on_circuit_id state',
  ),
  import_run: change(
    'by_user_id checked_at decisions ended_at format header header_key matched problem settings started_at state turn',
  ),
  instrument: change('carrier_id made_on repeatability repeatability_unit retired_at sense_grams_per_year tag'),
  leak_point: change('state'),
  location: change('elevation_m keeper_id name'),
  movement: ADD,
  notice: ADD,
  notice_mail: change('dropped_at last_error next_at sent_at tries'),
  notice_read: ADD, // read once is read
  outbox: ['DELETE', ...change('last_error sent_at tries')], // what was sent is pruned; a trigger keeps what waits
  parcel: change('bytes digest done ended_at expires_at found manifest next_at state step total tries'),
  parcel_part: REMOVE, // a file has its time
  person: change('active email name withdrawn_at'),
  reminder: change('dropped_at reminded_at'),
  site: change(
    'access_notes address country elevation_assumed elevation_m latitude longitude name region time_zone withdrawn_at',
  ),
  recall: change('closed_at'),
  recall_item: ADD,
  replacement_plan: change('withdrawn_at withdrawn_by withdrawn_why'),
  taint: change(
    'cleared_by_fact confirmed_by_fact high_grams low_grams minutes origin_high_grams spread_from_id withdrawn_at',
  ),
  tenant: ['SELECT', ...columns('UPDATE', SETTINGS)],
  unit: change('description tag withdrawn_at'),
  visit: change('due_at finished_at notes opens_at planned_minutes planned_start started_at state symptom version'),
  visit_circuit: ADD,
  visit_duty: ['DELETE', ...change('flag')],
  visit_override: REMOVE,
  visit_person: REMOVE,
  webhook: change('epoch number removed_at stopped_at stopped_why'),
  webhook_message: ['DELETE', ...change('answer delivered ended_at next_at tries')], // what ended long ago is pruned
  weighing: ADD,
};
/** The relay sees what is due, in every tenant, and changes nothing. */
const RELAY: Readonly<Record<string, readonly string[]>> = {
  command: ['SELECT(state)', 'SELECT(tenant_id)'], // whose wait; no other row of it is seen
  duty: ['SELECT(due_at)', 'SELECT(state)', 'SELECT(tenant_id)'], // whose they are and when, nothing else
  feed_counter: READ,
  import_run: columns('SELECT', 'id state tenant_id turn'), // whose work at which stretch, nothing of what is in it
  notice_mail: columns('SELECT', 'dropped_at next_at notice_id person_id sent_at tenant_id'), // whose and when, nothing else
  outbox: READ,
  parcel: columns('SELECT', 'expires_at id next_at state tenant_id'), // whose turn it is, and nothing of what is in it
  reminder: READ,
  webhook: columns('SELECT', 'epoch id number removed_at stopped_at tenant_id'), // neither address nor secret
  webhook_message: columns('SELECT', 'ended_at id kind next_at tenant_id webhook_id'),
};
/** The sign-in library in its own schema. */
const SIGN_IN: Readonly<Record<string, readonly string[]>> = {
  account: ALL,
  api_key: change('revoked_at used_at'), // never deleted: the audit trail names it
  attempt: ['DELETE', ...change('count ends_at')], // how often a secret was tried
  invitation: ALL,
  member: ALL,
  organization: ALL,
  session: ALL,
  twoFactor: ALL,
  user: ALL,
  verification: ALL,
};

const lines = (schema: string, login: string, table: Readonly<Record<string, readonly string[]>>) =>
  Object.entries(table).map(([name, verbs]) => `${schema}.${name} ${login}: ${[...verbs].sort().join(' ')}`);
export const GRANTS = [
  ...lines('public', 'ullage_app', APPLICATION),
  ...lines('public', 'ullage_relay', RELAY),
  ...lines('auth', 'ullage_auth', SIGN_IN),
].sort();
export const TABLES = [
  ...Object.keys(APPLICATION).map((name) => `public.${name}`),
  'public._prisma_migrations',
  ...Object.keys(SIGN_IN).map((name) => `auth.${name}`),
].sort();

/** What runs with its owner's rights, and why. */
export const DEFINERS = [
  'auth.follow_invitation() search_path=public, pg_temp', // an invitation that is made or answered is told
  'auth.follow_member() search_path=public, pg_temp', // the library's member row makes our person
  'auth.make_tenant() search_path=public, pg_temp', // the library's organisation makes our tenant
  'public.book_movement() search_path=public, pg_temp', // balances follow from movements and nobody else writes them
];
/** Policies that see every tenant. */
export const WIDE = [
  'command due_everywhere SELECT {ullage_relay}',
  'duty due_everywhere SELECT {ullage_relay}',
  'feed_counter due_everywhere SELECT {ullage_relay}',
  'import_run due_everywhere SELECT {ullage_relay}',
  'notice_mail due_everywhere SELECT {ullage_relay}',
  'outbox due_everywhere SELECT {ullage_relay}',
  'parcel due_everywhere SELECT {ullage_relay}',
  'reminder due_everywhere SELECT {ullage_relay}',
  'webhook due_everywhere SELECT {ullage_relay}',
  'webhook_message due_everywhere SELECT {ullage_relay}',
];

type Lines = { line: string }[];
const linesOf = async (client: pg.Client, text: string): Promise<string[]> =>
  ((await client.query(text)).rows as Lines).map((row) => row.line).sort();

/** Grants as they are, on tables and on columns, those of the owner aside. */
export const grantsOf = (client: pg.Client) =>
  linesOf(
    client,
    `WITH rows AS (
       SELECT c.oid, c.relname, c.relowner, c.relnamespace, a.grantee, a.privilege_type AS verb FROM pg_class c, aclexplode(c.relacl) a
       UNION ALL
       SELECT c.oid, c.relname, c.relowner, c.relnamespace, a.grantee, format('%s(%s)', a.privilege_type, t.attname)
       FROM pg_class c JOIN pg_attribute t ON t.attrelid = c.oid, aclexplode(t.attacl) a)
     SELECT format('%s.%s %s: %s', relnamespace::regnamespace, relname, coalesce(nullif(grantee, 0)::regrole::text, 'PUBLIC'),
       string_agg(verb, ' ' ORDER BY verb COLLATE "C")) AS line
     FROM rows WHERE relnamespace::regnamespace::text IN ('public', 'auth') AND grantee <> relowner
     GROUP BY relnamespace, relname, grantee`,
  );
export const tablesOf = (client: pg.Client) =>
  linesOf(
    client,
    `SELECT format('%s.%s', relnamespace::regnamespace, relname) AS line FROM pg_class
     WHERE relkind IN ('r', 'p', 'v', 'm', 'f') AND relnamespace::regnamespace::text IN ('public', 'auth')`,
  );
export const definersOf = (client: pg.Client) =>
  linesOf(
    client,
    `SELECT format('%s.%s(%s) %s', pronamespace::regnamespace, proname, pg_get_function_identity_arguments(oid),
       array_to_string(proconfig, ' ')) AS line FROM pg_proc WHERE prosecdef
     AND pronamespace::regnamespace::text NOT IN ('pg_catalog', 'information_schema')`,
  );
export const widePoliciesOf = (client: pg.Client) =>
  linesOf(
    client,
    `SELECT format('%s %s %s %s', tablename, policyname, cmd, roles) AS line FROM pg_policies
     WHERE schemaname = 'public' AND coalesce(qual, '') !~ 'current_tenant'`,
  );
/** Who but their owner may run our functions. */
export const executorsOf = (client: pg.Client) =>
  linesOf(
    client,
    `SELECT format('%s %s', p.oid::regprocedure, coalesce(nullif(a.grantee, 0)::regrole::text, 'PUBLIC')) AS line
     FROM pg_proc p, aclexplode(coalesce(p.proacl, acldefault('f', p.proowner))) a
     WHERE p.pronamespace::regnamespace::text IN ('public', 'auth') AND a.grantee <> p.proowner AND p.prosecdef`,
  );
