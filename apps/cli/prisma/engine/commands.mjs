// `schema-engine cli <command>`: the few commands Prisma asks before it speaks JSON-RPC.
import pg from 'pg';
import { adminQuery, databaseOf } from './adapter.mjs';

const COMMANDS = {
  'can-connect-to-database': async (url) => {
    const client = new pg.Client({ connectionString: url.replace(/[?&]schema=[^&]*/, '') });
    await client.connect();
    await client.end();
  },
  'create-database': (url) => adminQuery(url, `CREATE DATABASE "${databaseOf(url)}"`),
  'drop-database': (url) => adminQuery(url, `DROP DATABASE "${databaseOf(url)}" WITH (FORCE)`),
};

/** Runs one command and answers the status to exit with. */
export async function runCommand(command, url) {
  process.stderr.write('\n'); // the caller drops the first line
  try {
    if (!COMMANDS[command]) throw new Error(`unknown command ${command}`);
    await COMMANDS[command](url);
    return 0;
  } catch (error) {
    const absent = error.code === '3D000';
    const message = absent
      ? `Database \`${databaseOf(url)}\` does not exist`
      : `Can't reach database server: ${error.message}`;
    const fields = { message, error_code: absent ? 'P1003' : 'P1001' };
    const line = { timestamp: new Date().toISOString(), level: 'ERROR', fields, target: 'schema_engine::logger' };
    process.stderr.write(`${JSON.stringify(line)}\n`);
    return 1;
  }
}
