import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { beforeAll, expect, test } from 'vitest';
import { root } from '@ullage/cli/tasks';
import { openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { batch, booksAfter, booksOf, countsOf, ready, today } from './batch.ts';

const CHARGES = 40;
let world: TestOffice;
beforeAll(async () => {
  world = await openTestOffice(today('20:00'));
});

async function expectWhole(firm: Contractor): Promise<void> {
  expect(await booksOf(world, firm)).toEqual({
    books: booksAfter(CHARGES),
    totals: [{ refrigerant: 'R-448A', grams: 0 }],
  });
  // Only charges rest on a scale; the addition of February was an estimate.
  expect(await countsOf(world, firm)).toEqual({ facts: CHARGES, moved: CHARGES, feed: true });
}

/** Ends every backend of the office, now and again, until told to stop; gives how many fell. */
async function killing(until: AbortSignal): Promise<number> {
  let fallen = 0;
  while (!until.aborted) {
    await sleep(150 + Math.random() * 300);
    const ended = await world.sql(
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'test office' AND datname = $1`,
      [world.database.name],
    );
    fallen += ended.length;
  }
  return fallen;
}

test('PostgreSQL’s backends are ended in the middle of a stream of commands: sent again, nothing is lost and nothing doubled', async () => {
  const { firm, of } = await ready(world);
  const push = batch(of, CHARGES);
  const stop = new AbortController();
  const fallen = killing(stop.signal);
  for (const command of push.commands) {
    // A device sends until it has an answer.
    for (;;) {
      const answered = await world.office
        .push(firm.actors.technician, { ...push, commands: [command] })
        .catch((error: unknown) => error);
      if (!(answered instanceof Error)) break;
    }
  }
  stop.abort();
  expect(await fallen).toBeGreaterThan(5);
  const { answers } = await world.office.push(firm.actors.technician, push);
  expect(new Set(answers.map(({ outcome }) => outcome))).toEqual(new Set(['already-applied']));
  await expectWhole(firm);
}, 120_000);

/** Starts a process that pushes the batch. */
function officeProcess(firm: Contractor, push: unknown) {
  const script = join(root, 'tests/faults/office-process.ts');
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script], {
    cwd: root,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (text: Buffer) => (said += text.toString()));
  const given = { url: world.database.urls.application, actor: firm.actors.technician, now: world.clock.now, push };
  child.stdin.end(JSON.stringify(given));
  return { child, ended: once(child, 'exit'), said: () => said };
}

test('the office’s process is killed in the middle of a batch, three times: the batch sent again ends as if nothing had been', async () => {
  const { firm, of } = await ready(world);
  const push = batch(of, CHARGES);
  for (const reached of [6, 17, 29]) {
    const { child, ended, said } = officeProcess(firm, push);
    while (((await countsOf(world, firm))?.facts ?? 0) < reached && child.exitCode === null) await sleep(5);
    child.kill('SIGKILL');
    expect(await ended).toEqual([null, 'SIGKILL']);
    expect(said()).toBe('');
    const { totals } = await booksOf(world, firm);
    expect(totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]); // whole also before anything is sent again
  }
  const last = officeProcess(firm, push);
  expect(await last.ended).toEqual([0, null]);
  const outcomes = JSON.parse(last.said()) as string[];
  expect(outcomes.filter((outcome) => outcome === 'already-applied').length).toBeGreaterThanOrEqual(29);
  expect(outcomes.filter((outcome) => !['applied', 'already-applied'].includes(outcome))).toEqual([]);
  await expectWhole(firm);
}, 120_000);
