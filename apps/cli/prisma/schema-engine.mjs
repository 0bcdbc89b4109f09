#!/usr/bin/env node
// Stand-in for Prisma's native `schema-engine`, which would be downloaded: the same command line and the same JSON-RPC
// on standard input and output, served by @prisma/schema-engine-wasm over node-postgres. The stock `prisma migrate`
// runs it through PRISMA_SCHEMA_ENGINE_BINARY and does not notice.
import { createInterface } from 'node:readline';
import { runCommand } from './engine/commands.mjs';
import { openEngine } from './engine/methods.mjs';

const { datamodels, datasource, command, asksVersion } = readArguments(process.argv.slice(2));
if (command) process.exit(await runCommand(command, datasource.url));
const engine = await openEngine({ datamodels, datasource });
if (asksVersion) {
  process.stdout.write(`schema-engine-cli ${engine.version}\n`);
} else {
  serve();
}

function readArguments(words) {
  const found = { datamodels: [], datasource: {}, command: undefined, asksVersion: false };
  for (let i = 0; i < words.length; i++) {
    const word = words[i];
    if (word === '--datamodels' || word === '-d') found.datamodels.push(words[++i]);
    else if (word === '--datasource') found.datasource = JSON.parse(words[++i]);
    else if (word === '--version' || word === '-V') found.asksVersion = true;
    else if (word === 'cli') found.command = words[++i];
    else if (word.startsWith('--')) i++;
  }
  return found;
}

/** One request after the other, in the order they come. */
function serve() {
  let queue = Promise.resolve();
  const lines = createInterface({ input: process.stdin, crlfDelay: Infinity });
  lines.on('line', (line) => {
    if (line.trim()) queue = queue.then(() => answer(JSON.parse(line)));
  });
  lines.on('close', () => {
    void queue.then(() => process.exit(0));
  });
}

async function answer({ id, method, params }) {
  if (id === undefined || method === undefined) return; // the answer to our own print request
  try {
    const result = await engine.call(method, params ?? {});
    if (method === 'diff' && result.stdout) print(id, result.stdout);
    send({ id, jsonrpc: '2.0', result });
  } catch (error) {
    const data = {
      is_panic: false,
      message: textOf(error),
      meta: error?.meta ?? null,
      error_code: error?.code ?? null,
    };
    const message = 'An error happened. Check the data field for details.';
    send({ id, jsonrpc: '2.0', error: { code: 4466, message, data } });
  }
}

function textOf(error) {
  return String(error?.message ?? error);
}

function print(id, content) {
  send({ id: 9e8 + id, jsonrpc: '2.0', method: 'print', params: { content } });
}

function send(message) {
  const plain = (value) =>
    value instanceof Map ? Object.fromEntries([...value].map(([key, inner]) => [key, plain(inner)])) : value;
  const text = JSON.stringify(message, (_, value) => (typeof value === 'bigint' ? Number(value) : plain(value)));
  process.stdout.write(`${text}\n`);
}
