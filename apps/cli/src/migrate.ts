// npm run migrate            brings the database to this checkout
// npm run migrate -- --roles prints what the administrator of a real server runs first
import { join } from 'node:path';
import { readEnv } from './env.ts';
import { finishLocal, localDatabase, migrateLocal } from './local-database.ts';
import { dataDir } from './paths.ts';
import { say } from './say.ts';
import { generateIfChanged, migrateDeploy, rolesSql } from './tasks.ts';

if (process.argv.includes('--roles')) {
  process.stdout.write(`${rolesSql('ullage')}\n`);
} else {
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
