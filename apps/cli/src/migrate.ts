// npm run migrate            brings the database to this checkout
// npm run migrate -- --roles prints what the administrator of a real server runs first
import { join } from 'node:path';
import { readEnv } from './env.ts';
import { localDatabase } from './local-database.ts';
import { dataDir } from './paths.ts';
import { generateIfChanged, migrateDeploy, rolesSql } from './tasks.ts';

if (process.argv.includes('--roles')) {
  process.stdout.write(`${rolesSql('ullage')}\n`);
} else {
  const { MIGRATE_DATABASE_URL: given } = readEnv();
  const local = given === undefined ? await localDatabase({ home: join(dataDir, 'pg') }) : undefined;
  const owner = given ?? local?.urls.owner;
  await generateIfChanged();
  try {
    const applied = owner !== undefined && (await migrateDeploy({ owner }));
    process.stdout.write(applied ? 'migrations applied\n' : 'migrations up to date\n');
  } finally {
    await local?.server.stop();
  }
}
