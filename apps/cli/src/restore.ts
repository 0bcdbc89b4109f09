// npm run restore -- <folder>  a backup into an empty database: the embedded one, or that of DATABASE_URL
import { resolve } from 'node:path';
import { checkAllBooks } from './keeping/check-all.ts';
import { readManifest } from './keeping/manifest.ts';
import { restoreBackup } from './keeping/restore-backup.ts';
import { asCommand, refuseUnmigrated, withDatabase } from './keeping/with-database.ts';
import { finishLocal, migrateLocal } from './local-database.ts';
import { say } from './say.ts';

await asCommand(async () => {
  const [, , given] = process.argv;
  if (given === undefined) throw new Error('Name the folder of the backup: npm run restore -- <folder>.');
  const folder = resolve(given);
  readManifest(folder); // before a database is made for it
  return await withDatabase(async (urls, made) => {
    if (made === undefined) await refuseUnmigrated(urls);
    else await migrateLocal(made, new Date());
    const { contractors, tables } = await restoreBackup({ urls, folder, say });
    // From here it is a database that people worked in: no start makes it anew or puts a demo into it.
    if (made !== undefined) finishLocal();
    const rows = tables.reduce((sum, table) => sum + table.rows, 0);
    say(`restored ${contractors.length} contractors, ${tables.length} tables, ${rows} rows; everybody signs in again`);
    return (await checkAllBooks({ urls, say })) === 0;
  });
});
