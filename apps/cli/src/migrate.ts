// npm run migrate            brings the database to this checkout
// npm run migrate -- --roles prints what the administrator of a real server runs first
// npm run migrate -- --prepare  runs that itself, with ADMIN_DATABASE_URL and the five logins' addresses, then migrates
// npm run migrate -- --passwords  prints passwords of chance for the .env of docker-compose.yml
import { join } from 'node:path';
import { readEnv } from './env.ts';
import { composePasswords, prepareServer } from './given-server.ts';
import { finishLocal, localDatabase, migrateLocal } from './local-database.ts';
import { dataDir } from './paths.ts';
import { say } from './say.ts';
import { generateIfChanged, migrateDeploy, rolesSql } from './tasks.ts';

if (process.argv.includes('--roles')) {
  process.stdout.write(`${rolesSql('ullage')}\n`);
} else if (process.argv.includes('--passwords')) {
  process.stdout.write(composePasswords());
} else {
  if (process.argv.includes('--prepare')) await prepareServer(readEnv());
  await generateIfChanged();
  const { MIGRATE_DATABASE_URL: given } = readEnv();
  const applied = given === undefined ? await migrateEmbedded() : await migrateDeploy({ owner: given });
  process.stdout.write(applied ? 'migrations applied\n' : 'migrations up to date\n');
}

async function migrateEmbedded(): Promise<boolean> {
  const local = await localDatabase({ home: join(dataDir, 'pg'), log: say });
  try {
    const applied = await migrateLocal(local, new Date());
    finishLocal();
    return applied;
  } finally {
    await local.server.stop();
  }
}
