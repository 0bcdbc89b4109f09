// npm run prisma -- <arguments of the Prisma CLI>
import { join } from 'node:path';
import { readEnv } from './env.ts';
import { finishLocal, localDatabase } from './local-database.ts';
import { dataDir } from './paths.ts';
import { prisma } from './tasks.ts';

const args = process.argv.slice(2);
const offline = ['generate', 'format', 'validate', 'version'].includes(args[0] ?? '');
const { MIGRATE_DATABASE_URL: given } = readEnv();
const local = offline || given !== undefined ? undefined : await localDatabase({ home: join(dataDir, 'pg') });
const url = given ?? local?.urls.owner;
const run = prisma({
  args,
  stdio: 'inherit',
  ...(url === undefined ? {} : { url }),
  ...(local === undefined ? {} : { adminUrl: local.server.url }),
});
if (local?.created) finishLocal();
await local?.server.stop();
process.exit(run.status);
