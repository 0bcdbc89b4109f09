/** Ratios in one run; `npm run bench -- load` measures the loads alone, `-- bare` the rest. Nothing is asserted: how fast a machine is says nothing about whether the product is right. */
import { availableParallelism, cpus } from 'node:os';
import process from 'node:process';
import { openGround } from './ground.ts';
import { compileApi, removeApi } from './http.ts';
import { load } from './load.ts';
import { oneRow } from './one-row.ts';
import { postings } from './postings.ts';
import { sentence } from './rounds.ts';
import { tenantRead } from './tenant-read.ts';
import { planning } from './where-to-look.ts';

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const [asked] = process.argv.slice(2);
const ground = await openGround();
try {
  compileApi();
  const version = `SELECT current_setting('server_version') AS version`;
  const [server] = (await ground.admin.query<{ version: string }>(version)).rows;
  say(
    `Node ${process.version}, PostgreSQL ${server?.version} with fsync on, ${availableParallelism()} × ${cpus()[0]?.model}`,
  );
  if (asked !== 'load') {
    say('Share of the bare way’s speed: median of nine interleaved rounds, eight lanes.');
    for (const measure of [postings, tenantRead, oneRow]) say(sentence(await measure(ground)));
    say(sentence(await planning()));
  }
  if (asked !== 'bare') await load(ground, say);
} finally {
  removeApi();
  await ground.close();
}
