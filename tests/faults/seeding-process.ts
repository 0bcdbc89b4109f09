/** The first start's work on its database, as `npm start` does it, in a process of its own, for killing. */
import process from 'node:process';
import { openDatabase } from '../../apps/cli/src/start/databases.ts';
import { runTool } from '../../apps/cli/src/run-tool.ts';

const said = (line: string): void => void process.stdout.write(`${line}\n`);
const { server } = await openDatabase(
  { given: undefined, demo: 'small' },
  { run: runTool, stop: () => Promise.resolve() },
  said,
);
said('open');
await server?.stop();
