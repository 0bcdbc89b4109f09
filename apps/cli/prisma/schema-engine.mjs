#!/usr/bin/env node
// Stand-in for Prisma's native `schema-engine` (which is only on binaries.prisma.sh): same command line and
// same JSON-RPC on stdin/stdout, served by @prisma/schema-engine-wasm over node-postgres.
// Used through PRISMA_SCHEMA_ENGINE_BINARY, so the stock `prisma migrate ...` CLI works unchanged.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createInterface } from 'node:readline';
import pg from 'pg';
import { PrismaPg } from '@prisma/adapter-pg';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';

const require = createRequire(import.meta.url);
const glue = await import('@prisma/schema-engine-wasm/schema_engine_bg');
const bytes = readFileSync(require.resolve('@prisma/schema-engine-wasm/schema_engine_bg').replace(/\.js$/, '.wasm'));
const { instance } = await WebAssembly.instantiate(bytes, { './schema_engine_bg.js': glue });
glue.__wbg_set_wasm(instance.exports);
instance.exports.__wbindgen_start();

// ---- command line
const argv = process.argv.slice(2),
  datamodels = [];
let datasource = {},
  cli;
for (let i = 0; i < argv.length; i++) {
  if (argv[i] === '--datamodels' || argv[i] === '-d') datamodels.push(argv[++i]);
  else if (argv[i] === '--datasource') datasource = JSON.parse(argv[++i]);
  else if (argv[i] === '--version' || argv[i] === '-V') {
    console.log(`schema-engine-cli ${glue.version()}`);
    process.exit(0);
  } else if (argv[i] === 'cli') cli = argv[++i];
  else if (argv[i].startsWith('--')) i++;
}

// ---- adapter: PrismaPg.executeScript() splits on ";" (breaks $$ bodies); its shadow database is dropped while in use
const CHARACTER = 6,
  OID_CHAR = 18,
  OID_TEXT = 25; // 6: ColumnTypeEnum.Character of @prisma/driver-adapter-utils
const patch = (a) => {
  const performIO = a.performIO.bind(a),
    queryRaw = a.queryRaw.bind(a);
  let chars = [];
  return Object.assign(a, {
    executeScript: async (sql) => {
      try {
        await a.underlyingDriver().query(sql);
      } catch (e) {
        a.onError(e);
      }
    },
    // adapter-pg refuses the pg_catalog type "char" (oid 18), which the describer's queries return (prisma#27403)
    performIO: async (q) => {
      const r = await performIO(q);
      chars = [];
      for (const [i, f] of (r.fields ?? []).entries())
        if (f.dataTypeID === OID_CHAR) {
          f.dataTypeID = OID_TEXT;
          chars.push(i);
        }
      return r;
    },
    queryRaw: async (q) => {
      const r = await queryRaw(q);
      for (const i of chars) if (!r.rows.some((row) => row[i] === '')) r.columnTypes[i] = CHARACTER;
      return r;
    },
  });
};
const admin = (url, db = 'postgres') => {
  const u = new URL(url);
  u.pathname = `/${db}`;
  return u.href;
};
async function adminQuery(sql) {
  // The owner of our tables may create no database; a shadow is made by whom SHADOW_ADMIN_URL names, and given to the owner.
  const c = new pg.Client({ connectionString: admin(process.env.SHADOW_ADMIN_URL ?? datasource.url) });
  await c.connect();
  try {
    await c.query(sql);
  } finally {
    await c.end();
  }
}
const owner = () => `"${decodeURIComponent(new URL(datasource.url).username)}"`;
class Factory extends PrismaPg {
  constructor(url) {
    const u = new URL(url),
      schema = u.searchParams.get('schema') ?? 'public';
    u.searchParams.delete('schema');
    super({ connectionString: u.href, max: 2 }, { schema });
    this.schema = schema;
  }
  async connect() {
    return patch(await super.connect());
  }
  async connectToShadowDb() {
    if (datasource.shadowDatabaseUrl) return new Factory(datasource.shadowDatabaseUrl).connect();
    const db = `prisma_migrate_shadow_db_${crypto.randomUUID()}`;
    await adminQuery(`CREATE DATABASE "${db}" OWNER ${owner()} TEMPLATE template0`);
    const a = await new Factory(admin(datasource.url, db)).connect(),
      end = a.dispose.bind(a);
    a.dispose = async () => {
      await end();
      await adminQuery(`DROP DATABASE IF EXISTS "${db}" WITH (FORCE)`);
    };
    return a;
  }
}
const logLine = (level, message, error_code) =>
  process.stderr.write(
    JSON.stringify({
      timestamp: new Date().toISOString(),
      level,
      fields: { message, error_code },
      target: 'schema_engine::logger',
    }) + '\n',
  );

if (cli) {
  const db = decodeURIComponent(new URL(datasource.url).pathname.slice(1));
  process.stderr.write('\n'); // the CLI drops the first line
  try {
    if (cli === 'can-connect-to-database') {
      const c = new pg.Client({ connectionString: datasource.url.replace(/[?&]schema=[^&]*/, '') });
      await c.connect();
      await c.end();
    } else if (cli === 'create-database') await adminQuery(`CREATE DATABASE "${db}"`);
    else if (cli === 'drop-database') await adminQuery(`DROP DATABASE "${db}" WITH (FORCE)`);
    else throw new Error(`unknown command ${cli}`);
    process.exit(0);
  } catch (e) {
    logLine(
      'ERROR',
      e.code === '3D000' ? `Database \`${db}\` does not exist` : `Can't reach database server: ${e.message}`,
      e.code === '3D000' ? 'P1003' : 'P1001',
    );
    process.exit(1);
  }
}

// ---- JSON-RPC
// A new engine for every call: one that has used its shadow database once answers the next use with
// "PostgreSQL shadow DB must be provided through an external factory".
async function newEngine() {
  return glue.SchemaEngine.new(
    { datamodels: datamodels.length ? datamodels.map((p) => [p, readFileSync(p, 'utf8')]) : undefined },
    (l) => {
      if (process.env.SCHEMA_ENGINE_DEBUG) process.stderr.write(`${l}\n`);
    },
    bindMigrationAwareSqlAdapterFactory(new Factory(datasource.url ?? 'postgresql://none@127.0.0.1:1/none')),
  );
}
const plain = (v) => (v instanceof Map ? Object.fromEntries([...v].map(([k, x]) => [k, plain(x)])) : v);
const send = (o) =>
  process.stdout.write(JSON.stringify(o, (_, v) => (typeof v === 'bigint' ? Number(v) : plain(v))) + '\n');
// evaluateDataLoss and createMigration cannot replay existing migrations in the wasm engine ("PostgreSQL shadow DB must be
// provided through an external factory"), but diff can, and gives the same script.
async function scriptFor({ migrationsList, schema, filters }) {
  const e = await newEngine();
  const r = await e.diff({
    from: { tag: 'migrations', ...migrationsList },
    to: { tag: 'schemaDatamodel', files: schema.files },
    script: true,
    exitCode: null,
    filters,
  });
  e.free();
  const s = (r.stdout ?? '').trim();
  return s === '' || s === '-- This is an empty migration.' ? '' : `${s}\n`;
}
const RISKS = [
  [/DROP TABLE (\S+)/g, 'the table is dropped with all its rows'],
  [/DROP COLUMN\s+(\S+?)[,;]/g, 'the column is dropped with its values'],
  [/ADD COLUMN\s+(\S+) (?!.*DEFAULT).*NOT NULL/g, 'a required column without default: fails when the table has rows'],
  [/ALTER COLUMN (\S+) SET NOT NULL/g, 'becomes required: fails when there are NULLs'],
  [/ALTER COLUMN (\S+) (?:SET DATA )?TYPE/g, 'the type changes: values may not convert'],
  [/DROP VALUE|DROP TYPE (\S+)/g, 'an enum (value) is removed: fails when still used'],
  [/CREATE UNIQUE INDEX (\S+)/g, 'becomes unique: fails when there are duplicates'],
];
const warningsOf = (sql) =>
  RISKS.flatMap(([re, why]) =>
    [...sql.matchAll(re)].map((m) => ({ message: `${m[1] ?? m[0]}: ${why}`, stepIndex: 0 })),
  );
// TypedSQL (`prisma generate --sql`): the wasm engine dies here with "RangeError: Maximum call stack size exceeded".
// PostgreSQL itself tells parameter and column types (Parse + Describe, nothing is executed).
const OIDS = {
  16: 'bool',
  17: 'bytes',
  18: 'char',
  19: 'string',
  20: 'bigint',
  21: 'int',
  23: 'int',
  25: 'string',
  26: 'bigint',
  114: 'json',
  142: 'xml',
  700: 'float',
  701: 'double',
  1042: 'string',
  1043: 'string',
  1082: 'date',
  1083: 'time',
  1114: 'datetime',
  1184: 'datetime',
  1266: 'time',
  1700: 'decimal',
  2950: 'uuid',
  3802: 'json',
};
class Describe {
  constructor(text) {
    this.text = text;
    this.params = [];
    this.fields = [];
    this.done = new Promise((ok, no) => {
      this.ok = ok;
      this.no = no;
    });
  }
  submit(con) {
    con.once('parameterDescription', (m) => {
      this.params = m.dataTypeIDs;
    });
    con.parse({ text: this.text, name: '', types: [] });
    con.describe({ type: 'S', name: '' });
    con.sync();
  }
  handleRowDescription(m) {
    this.fields = m.fields;
  }
  handleError(e) {
    this.no(e);
  }
  handleReadyForQuery() {
    this.ok();
  }
  handleDataRow() {}
  handleCommandComplete() {}
  handleEmptyQuery() {}
  handlePortalSuspended() {}
  handleCopyInResponse() {}
  handleCopyData() {}
  handleParseComplete() {}
}
async function describeQueries(queries) {
  const c = new pg.Client({ connectionString: datasource.url.replace(/[?&]schema=[^&]*/, '') });
  await c.connect();
  try {
    const types = new Map(
      (
        await c.query(
          `SELECT t.oid::int, t.typname, t.typtype, t.typelem::int AS elem, t.typcategory, n.nspname FROM pg_type t JOIN pg_namespace n ON n.oid = t.typnamespace`,
        )
      ).rows.map((r) => [r.oid, r]),
    );
    const nameOf = (oid) => {
      const t = types.get(oid);
      if (OIDS[oid]) return OIDS[oid];
      if (t?.typtype === 'e') return t.typname;
      if (t?.typcategory === 'A' && t.elem) {
        const e = nameOf(t.elem);
        return e === 'unknown' ? e : `${e}-array`;
      }
      return 'unknown';
    };
    const out = [];
    for (const q of queries) {
      const d = new Describe(q.source);
      c.query(d);
      try {
        await d.done;
      } catch (e) {
        throw Object.assign(new Error(`${q.name}: ${e.message}`), { code: null });
      }
      const docs = [...q.source.matchAll(/^--\s*@param\s*(?:\{(\w+)\})?\s*\$(\d+)(?::(\w+))?(\?)?\s*(.*)$/gm)];
      const outer = /\b(left|right|full)\b[\s\w]*\bjoin\b/i.test(q.source);
      const cols = d.fields.filter((f) => f.tableID).map((f) => [f.tableID, f.columnID]);
      const notNull = new Set(
        (
          await c.query(
            `SELECT attrelid::int || '.' || attnum AS k FROM pg_attribute WHERE attnotnull AND (attrelid, attnum) IN (SELECT * FROM unnest($1::oid[], $2::int2[]))`,
            [cols.map((x) => x[0]), cols.map((x) => x[1])],
          )
        ).rows.map((r) => r.k),
      );
      out.push({
        name: q.name,
        source: q.source,
        documentation: null,
        parameters: d.params.map((oid, i) => {
          const m = docs.find((x) => Number(x[2]) === i + 1);
          return {
            name: m?.[3] ?? `arg${i}`,
            typ: nameOf(oid),
            documentation: m?.[5] || null,
            nullable: m?.[4] === '?',
          };
        }),
        // an expression, or any column once there is an outer join, may be NULL
        resultColumns: d.fields.map((f) => ({
          name: f.name,
          typ: nameOf(f.dataTypeID),
          nullable: outer || !notNull.has(`${f.tableID}.${f.columnID}`),
        })),
      });
    }
    return out;
  } finally {
    await c.end();
  }
}
let queue = Promise.resolve();
async function handle({ id, method, params }) {
  if (id === undefined || method === undefined) return; // answer to our own print request
  try {
    if (process.env.SCHEMA_ENGINE_DEBUG) process.stderr.write(`> ${method}\n`);
    let result;
    if (method === 'createDatabase') {
      const d = decodeURIComponent(new URL(datasource.url).pathname.slice(1));
      await adminQuery(`CREATE DATABASE "${d}"`);
      result = { databaseName: d };
    } else if (method === 'introspectSql') result = { queries: await describeQueries(params.queries) };
    else if (method === 'evaluateDataLoss') {
      const script = await scriptFor(params);
      result = { migrationSteps: script ? 1 : 0, unexecutableSteps: [], warnings: warningsOf(script) };
    } else if (method === 'createMigration') {
      const script = await scriptFor(params),
        warnings = warningsOf(script);
      const head = warnings.length
        ? `/*\n  Warnings:\n\n${warnings.map((w) => `  - ${w.message}\n`).join('')}\n*/\n`
        : '';
      const name = params.migrationName
        .trim()
        .toLowerCase()
        .replace(/[^a-z0-9]+/g, '_')
        .slice(0, 200);
      result = {
        connectorType: 'postgresql',
        extension: 'sql',
        generatedMigrationName: `${new Date().toISOString().replace(/\D/g, '').slice(0, 14)}${name ? `_${name}` : ''}`,
        migrationScript: script ? head + script : params.draft ? '-- This is an empty migration.' : null,
      };
    } else {
      const e = await newEngine(),
        fn = method === 'getDatabaseVersion' ? 'version' : method;
      if (typeof e[fn] !== 'function') throw new Error(`method ${method} is not served by the wasm schema engine`);
      result = (await e[fn](params ?? {})) ?? {};
      e.free();
      if (method === 'diff' && result.stdout)
        send({ id: 9e8 + id, jsonrpc: '2.0', method: 'print', params: { content: result.stdout } });
    }
    send({ id, jsonrpc: '2.0', result });
  } catch (e) {
    if (process.env.SCHEMA_ENGINE_DEBUG) process.stderr.write(`! ${e?.stack ?? e} ${JSON.stringify(e)}\n`);
    send({
      id,
      jsonrpc: '2.0',
      error: {
        code: 4466,
        message: 'An error happened. Check the data field for details.',
        data: { is_panic: false, message: String(e?.message ?? e), meta: e?.meta ?? null, error_code: e?.code ?? null },
      },
    });
  }
}
const rl = createInterface({ input: process.stdin, crlfDelay: Infinity });
rl.on('line', (l) => {
  if (l.trim()) queue = queue.then(() => handle(JSON.parse(l)));
});
rl.on('close', () => queue.then(() => process.exit(0)));
