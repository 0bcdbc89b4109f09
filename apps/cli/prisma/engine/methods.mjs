// The engine's methods, served by @prisma/schema-engine-wasm. What it cannot do itself is made of what it can.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { bindMigrationAwareSqlAdapterFactory } from '@prisma/driver-adapter-utils';
import { adminQuery, databaseOf, Factory } from './adapter.mjs';
import { headOf, warningsOf } from './data-loss.mjs';

const require = createRequire(import.meta.url);
const NOWHERE = 'postgresql://none@127.0.0.1:1/none';
const EMPTY = '-- This is an empty migration.';

async function loadWasm() {
  const glue = await import('@prisma/schema-engine-wasm/schema_engine_bg');
  const file = require.resolve('@prisma/schema-engine-wasm/schema_engine_bg').replace(/\.js$/, '.wasm');
  const { instance } = await WebAssembly.instantiate(readFileSync(file), { './schema_engine_bg.js': glue });
  glue.__wbg_set_wasm(instance.exports);
  instance.exports.__wbindgen_start();
  return glue;
}

/** @returns {Promise<{ version: string, call: (method: string, params: object) => Promise<object> }>} */
export async function openEngine({ datasource, datamodels }) {
  const glue = await loadWasm();
  // A new engine for every call: one that has used its shadow database once answers the next use with
  // "PostgreSQL shadow DB must be provided through an external factory".
  const fresh = () =>
    glue.SchemaEngine.new(
      { datamodels: datamodels.length > 0 ? datamodels.map((path) => [path, readFileSync(path, 'utf8')]) : undefined },
      () => {},
      bindMigrationAwareSqlAdapterFactory(new Factory({ ...datasource, url: datasource.url ?? NOWHERE })),
    );
  const ask = async (method, params) => {
    const engine = await fresh();
    try {
      if (typeof engine[method] !== 'function') throw new Error(`The wasm schema engine has no method ${method}.`);
      return (await engine[method](params)) ?? {};
    } finally {
      engine.free();
    }
  };
  const own = {
    createDatabase: () => createDatabase(datasource.url),
    evaluateDataLoss: async (params) => {
      const script = await scriptFor(ask, params);
      return { migrationSteps: script ? 1 : 0, unexecutableSteps: [], warnings: warningsOf(script) };
    },
    createMigration: async (params) => newMigration(await scriptFor(ask, params), params),
    getDatabaseVersion: (params) => ask('version', params),
  };
  return {
    version: glue.version(),
    call: (method, params) => (own[method] ?? ((given) => ask(method, given)))(params),
  };
}

async function createDatabase(url) {
  const databaseName = databaseOf(url);
  await adminQuery(url, `CREATE DATABASE "${databaseName}"`);
  return { databaseName };
}

/** The engine's own evaluateDataLoss and createMigration cannot replay migrations; its diff can, and gives the same script. */
async function scriptFor(ask, { migrationsList, schema, filters }) {
  const result = await ask('diff', {
    from: { tag: 'migrations', ...migrationsList },
    to: { tag: 'schemaDatamodel', files: schema.files },
    script: true,
    exitCode: null,
    filters,
  });
  const script = (result.stdout ?? '').trim();
  return script === '' || script === EMPTY ? '' : `${script}\n`;
}

function newMigration(script, { migrationName, draft }) {
  const stamp = new Date().toISOString().replace(/\D/g, '').slice(0, 14);
  const name = migrationName
    .trim()
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .slice(0, 200);
  const head = headOf(warningsOf(script));
  return {
    connectorType: 'postgresql',
    extension: 'sql',
    generatedMigrationName: name ? `${stamp}_${name}` : stamp,
    migrationScript: script ? head + script : draft ? EMPTY : null,
  };
}
