// npm run backup               everything of ours into .data/backups/<moment>
// npm run backup -- <folder>   into a folder that is not there yet
import { join, resolve } from 'node:path';
import { appVersion } from './keeping/app-version.ts';
import { takeBackup } from './keeping/take-backup.ts';
import { asCommand, refuseUnmigrated, withDatabase } from './keeping/with-database.ts';
import { dataDir } from './paths.ts';
import { say } from './say.ts';

await asCommand(() =>
  withDatabase(async (urls) => {
    await refuseUnmigrated(urls);
    const now = new Date();
    const stamp = now.toISOString().slice(0, 19).replaceAll(':', '-');
    const folder = resolve(process.argv[2] ?? join(dataDir, 'backups', stamp));
    const { contractors, tables } = await takeBackup({ urls, folder, app: appVersion(), now, say });
    const rows = tables.reduce((sum, table) => sum + table.rows, 0);
    say(`${folder}: ${contractors.length} contractors, ${tables.length} tables, ${rows} rows`);
    return true;
  }),
);
