/**
 * `npm run --silent sums -- <name>`: one JSON value per line of standard input, one JSON answer per line of standard
 * output. A line that cannot be answered gives its problem document on its own line; the rest goes on, and the exit status
 * is 1. Alone, it lists the names. Needs no server and no database.
 */
import process from 'node:process';
import { isSumName, SUM_NAMES, SUMS } from '@ullage/contracts';
import { runSum } from '@ullage/sums';
import { makeCalendar } from '@ullage/units';
import { Temporal } from 'temporal-polyfill';

const calendar = makeCalendar(Temporal);
const NEWLINE = 0x0a;

type Outcome = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly value: unknown };

const refused = (code: string, status: number, title: string): Outcome => ({
  ok: false,
  value: { type: `/problems/${code}`, title, status },
});

function decode(line: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(line);
  } catch {
    return undefined;
  }
}

function parse(text: string): { readonly json: unknown } | undefined {
  try {
    return { json: JSON.parse(text) as unknown };
  } catch {
    return undefined;
  }
}

function answer(name: string, line: Uint8Array): Outcome | undefined {
  const text = decode(line);
  if (text === undefined) return refused('not-text', 400, 'This line is not UTF-8 text.');
  if (text.trim() === '') return undefined;
  const parsed = parse(text);
  if (!parsed) return refused('not-valid', 400, 'This line is not JSON: give one JSON value per line.');
  try {
    const result = runSum(name, parsed.json, calendar);
    return result.ok ? { ok: true, value: result.answer } : { ok: false, value: result.problem };
  } catch {
    // A fault of ours on one line must not take the other answers with it.
    return refused('internal', 500, 'This line could not be worked out: a fault of this program.');
  }
}

/** The lines of a byte stream, as they come; the last may lack its newline. */
async function* linesOf(stream: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let pending: Uint8Array[] = [];
  for await (const chunk of stream) {
    let rest = chunk;
    for (let end = rest.indexOf(NEWLINE); end >= 0; end = rest.indexOf(NEWLINE)) {
      yield Buffer.concat([...pending, rest.subarray(0, end)]);
      pending = [];
      rest = rest.subarray(end + 1);
    }
    if (rest.length > 0) pending.push(rest);
  }
  if (pending.length > 0) yield Buffer.concat(pending);
}

async function answerLines(name: string): Promise<boolean> {
  let allAnswered = true;
  for await (const line of linesOf(process.stdin)) {
    const outcome = answer(name, line);
    if (!outcome) continue;
    allAnswered &&= outcome.ok;
    process.stdout.write(`${JSON.stringify(outcome.value)}\n`);
  }
  return allAnswered;
}

async function main(name: string | undefined): Promise<number> {
  if (name === undefined) {
    const widest = Math.max(...SUM_NAMES.map((known) => known.length));
    for (const known of SUM_NAMES) process.stdout.write(`${known.padEnd(widest)}  ${SUMS[known].title}\n`);
    return 0;
  }
  if (!isSumName(name)) {
    process.stderr.write(`There is no sum called "${name}". Known: ${SUM_NAMES.join(', ')}.\n`);
    return 1;
  }
  return (await answerLines(name)) ? 0 : 1;
}

process.exitCode = await main(process.argv[2]);
