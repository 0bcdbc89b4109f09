// Prisma's PostgreSQL adapter as the wasm schema engine needs it: three faults of the adapter are worked round here.
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';

const CHARACTER = 6; // ColumnTypeEnum.Character of @prisma/driver-adapter-utils
const OID_CHAR = 18;
const OID_TEXT = 25;

/** The address of another database of the same server. */
export function inDatabase(url, database) {
  const other = new URL(url);
  other.pathname = `/${database}`;
  return other.href;
}

/** The name of the database an address leads to. */
export function databaseOf(url) {
  return decodeURIComponent(new URL(url).pathname.slice(1));
}

/**
 * Runs a statement that makes or drops databases. The owner of our tables may do neither; SHADOW_ADMIN_URL names who may.
 */
export async function adminQuery(url, sql) {
  const client = new pg.Client({ connectionString: inDatabase(process.env.SHADOW_ADMIN_URL ?? url, 'postgres') });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}

export class Factory extends PrismaPg {
  constructor({ url, shadowDatabaseUrl }) {
    const address = new URL(url);
    const schema = address.searchParams.get('schema') ?? 'public';
    address.searchParams.delete('schema');
    super({ connectionString: address.href, max: 2 }, { schema });
    this.source = { url, shadowDatabaseUrl };
  }

  async connect() {
    return mended(await super.connect());
  }

  async connectToShadowDb() {
    const { url, shadowDatabaseUrl } = this.source;
    if (shadowDatabaseUrl) return new Factory({ url: shadowDatabaseUrl }).connect();
    const name = `prisma_migrate_shadow_db_${crypto.randomUUID()}`;
    const owner = decodeURIComponent(new URL(url).username);
    await adminQuery(url, `CREATE DATABASE "${name}" OWNER "${owner}" TEMPLATE template0`);
    const adapter = await new Factory({ url: inDatabase(url, name) }).connect();
    const end = adapter.dispose.bind(adapter);
    // The engine would drop it while still connected.
    adapter.dispose = async () => {
      await end();
      await adminQuery(url, `DROP DATABASE IF EXISTS "${name}" WITH (FORCE)`);
    };
    return adapter;
  }
}

function mended(adapter) {
  const performIO = adapter.performIO.bind(adapter);
  const queryRaw = adapter.queryRaw.bind(adapter);
  let chars = [];
  return Object.assign(adapter, {
    // The adapter's own splits at every ";" and so breaks the bodies of functions.
    executeScript: async (sql) => {
      try {
        await adapter.underlyingDriver().query(sql);
      } catch (error) {
        adapter.onError(error);
      }
    },
    // The adapter refuses the catalogue's type "char", which the engine's own queries return (prisma/prisma#27403).
    performIO: async (query) => {
      const result = await performIO(query);
      chars = [];
      for (const [index, field] of (result.fields ?? []).entries()) {
        if (field.dataTypeID !== OID_CHAR) continue;
        field.dataTypeID = OID_TEXT;
        chars.push(index);
      }
      return result;
    },
    queryRaw: async (query) => {
      const result = await queryRaw(query);
      for (const index of chars) {
        if (!result.rows.some((row) => row[index] === '')) result.columnTypes[index] = CHARACTER;
      }
      return result;
    },
  });
}
