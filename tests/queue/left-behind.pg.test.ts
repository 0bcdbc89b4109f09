/** What a process leaves behind when it dies: commands whose turn had come, and messages nobody needs any more. */
import { beforeAll, describe, expect, test } from 'vitest';
import pg from 'pg';
import type { RunningWorker } from '@ullage/worker';
import { newId } from '../support/office.ts';
import type { Contractor } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import { ids, theCall } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';
import { openNightShift, until } from './night-shift.ts';
import type { NightShift } from './night-shift.ts';

const at = onDay('2026-04-30');
const HOUR_MS = 3_600_000;
let shift: NightShift;
let firm: Contractor;
let of: StoryIds;
beforeAll(async () => {
  shift = await openNightShift('postgres', at('08:00'));
  firm = await shift.world.contractor();
  of = ids();
  await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }));
});

const sql = <Row extends pg.QueryResultRow>(text: string, values: unknown[] = []): Promise<Row[]> =>
  shift.world.sql<Row>(text, values);
const stateOf = async (id: string): Promise<string | undefined> =>
  (await sql<{ state: string }>('SELECT state FROM command WHERE id = $1', [id]))[0]?.state;
const later = (hours: number): void => {
  shift.world.clock.now = new Date(Date.parse(shift.world.clock.now) + hours * HOUR_MS).toISOString();
};
const safety = () => ({ visitId: of.visit, checks: [], notDone: [] });

interface Waiting {
  readonly id?: string;
  readonly seq: number;
  readonly dependsOn: readonly string[];
}
/** A device's commands that wait. */
async function push(
  who: Contractor,
  device: string,
  commands: readonly Waiting[],
  visitId = of.visit,
): Promise<string[]> {
  const envelopes = commands.map(({ id = newId(), seq, dependsOn }) => ({
    id,
    schema: 'record-safety',
    device,
    deviceSeq: seq,
    happenedAt: shift.world.clock.now,
    dependsOn,
    body: { ...safety(), visitId },
  }));
  const sentAt = shift.world.clock.now;
  await shift.world.office.push(who.actors.technician, { sentAt, device, commands: envelopes });
  return envelopes.map(({ id }) => id);
}
/** Applies a command as one would whose process ends before it looks for what had waited: what waits is hidden from it. */
async function arrivesAndDies(who: Contractor, id: string, visitId = of.visit): Promise<void> {
  await sql(`UPDATE command SET state = 'attention' WHERE state = 'waiting'`);
  await who.send('technician', 'record-safety', { ...safety(), visitId }, { id });
  await sql(`UPDATE command SET state = 'waiting' WHERE state = 'attention'`);
}
/** Facts in the order in which they were written down. */
const written = async (some: readonly string[]): Promise<string[]> => {
  const rows = await sql<{ record_id: string }>(
    `SELECT record_id FROM feed WHERE kind = 'fact' AND record_id = ANY($1) ORDER BY number`,
    [some],
  );
  return rows.map((row) => row.record_id);
};

describe('a command that was left waiting for nothing more', () => {
  test('is carried out by the sweep, once, in the order of its device, with what it held up in its place', async () => {
    const [first, never] = [newId(), newId()];
    // The ids are made in the opposite order, so that only the device's numbers give this one.
    const [eight, seven, six, five] = [newId(), newId(), newId(), newId()];
    const device = newId();
    await push(firm, device, [
      { id: seven, seq: 7, dependsOn: [first] },
      { id: eight, seq: 8, dependsOn: [five] },
    ]);
    await push(firm, device, [
      { id: five, seq: 5, dependsOn: [first] },
      { id: six, seq: 6, dependsOn: [first, never] },
    ]);
    await arrivesAndDies(firm, first);
    expect(await Promise.all([five, six, seven, eight].map(stateOf))).toEqual(Array(4).fill('waiting'));
    const workers = await Promise.all([shift.worker(), shift.worker()]);
    await Promise.all(workers.map((worker) => worker.sweeper.carryOnAll()));
    expect(await Promise.all([five, six, seven, eight].map(stateOf))).toEqual([
      'applied',
      'waiting',
      'applied',
      'applied',
    ]);
    expect(await written([five, six, seven, eight])).toEqual([five, seven, eight]);
    await sql(`UPDATE command SET state = 'applied' WHERE id = $1`, [six]); // out of the way of the other tests
  });

  test('stands in the order of its device too when what it waited for comes as it should', async () => {
    const first = newId();
    const [third, second, one] = [newId(), newId(), newId()];
    await push(firm, newId(), [
      { id: one, seq: 1, dependsOn: [first] },
      { id: second, seq: 2, dependsOn: [first] },
      { id: third, seq: 3, dependsOn: [one] },
    ]);
    await firm.send('technician', 'record-safety', safety(), { id: first });
    expect(await written([one, second, third])).toEqual([one, second, third]);
  });

  test('and fails holds up neither what it waited for nor its neighbours, and is tried again', async () => {
    const first = newId();
    const [bad, good] = await push(firm, newId(), [
      { seq: 1, dependsOn: [first] },
      { seq: 2, dependsOn: [first] },
    ]);
    await sql(
      `CREATE FUNCTION spoil() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION 'spoiled'; END $$;
       CREATE TRIGGER spoil BEFORE INSERT ON fact FOR EACH ROW WHEN (NEW.id = '${bad}') EXECUTE FUNCTION spoil()`,
    );
    const answer = await firm.send('technician', 'record-safety', safety(), { id: first });
    expect(answer.outcome).toBe('applied');
    expect([await stateOf(bad!), await stateOf(good!)]).toEqual(['waiting', 'applied']);
    const { sweeper } = await shift.worker();
    await sweeper.carryOnAll();
    expect(await stateOf(bad!)).toBe('waiting');
    await sql('DROP TRIGGER spoil ON fact');
    await sweeper.carryOnAll();
    expect(await stateOf(bad!)).toBe('applied');
  });

  test('belongs to its own contractor: each tenant’s are found, by a login that sees whose they are and no more', async () => {
    const other = await shift.world.contractor('Other Firm');
    const theirs = ids();
    await other.send('dispatcher', 'take-call', theCall(theirs, { first: '2025-12-01', second: '2026-02-14' }));
    const [first, second] = [newId(), newId()];
    await push(other, newId(), [{ id: second, seq: 1, dependsOn: [first] }], theirs.visit);
    await arrivesAndDies(other, first, theirs.visit);
    const relay = new pg.Client({ connectionString: shift.world.database.urls.relay });
    await relay.connect();
    try {
      const seen = await relay.query('SELECT DISTINCT tenant_id, state FROM command');
      expect(seen.rows).toEqual([{ tenant_id: other.tenantId, state: 'waiting' }]);
      for (const text of [
        'SELECT envelope FROM command',
        'SELECT id FROM command',
        `UPDATE command SET state = 'applied'`,
      ])
        await expect(relay.query(text), text).rejects.toMatchObject({ code: '42501' });
    } finally {
      await relay.end();
    }
    await (await shift.worker()).sweeper.carryOnAll();
    expect(await stateOf(second)).toBe('applied');
  });
});

describe('a command that waits longer than a day', () => {
  let first: string;
  let waiting: string;
  let worker: RunningWorker;
  const open = async () =>
    (await shift.world.office.attention(firm.actors.dispatcher)).items.filter(
      ({ commandId, closedAt }) => commandId === waiting && closedAt === null,
    );
  const settle = async (how: 'try-again' | 'leave-out') =>
    firm.send('dispatcher', 'settle-attention', { attentionId: (await open())[0]!.id, how });
  /** Two sweep at once, as they may. */
  const sweep = async () => {
    const twin = await shift.worker();
    await Promise.all([worker.sweeper.carryOnAll(), twin.sweeper.carryOnAll()]);
  };
  async function leftWaiting(): Promise<void> {
    first = newId();
    [waiting = ''] = await push(firm, newId(), [{ seq: 1, dependsOn: [first] }]);
    worker = await shift.worker();
  }

  test('is shown to a person once, by whom it was sent, and closes by itself when its turn comes after all', async () => {
    await leftWaiting();
    later(23.9);
    await sweep();
    expect(await open()).toEqual([]);
    later(0.1);
    await sweep();
    await sweep();
    expect(await open()).toMatchObject([
      {
        kind: 'command',
        reason: '/problems/still-waiting',
        title: 'Waits for something that has not come',
        text: 'From technician of Tarn & Bracken Cooling: what it builds on has not come for a day. Ask them, or leave it out.',
        commandKind: 'record-safety',
      },
    ]);
    const told = await sql(`SELECT op FROM feed WHERE kind = 'attention' AND record_id = $1`, [(await open())[0]!.id]);
    expect(told).toEqual([{ op: 'made' }]);
    await firm.send('technician', 'record-safety', safety(), { id: first });
    expect(await stateOf(waiting)).toBe('applied');
    expect(await open()).toEqual([]);
  });

  test('tried again it has another day', async () => {
    await leftWaiting();
    later(25);
    await sweep();
    await settle('try-again');
    expect(await stateOf(waiting)).toBe('waiting');
    await sweep();
    expect(await open()).toEqual([]);
    later(24);
    await sweep();
    expect(await open()).toHaveLength(1);
    await settle('leave-out');
  });

  test('left out it is kept, is not carried out when the rest comes, and its device is told', async () => {
    await leftWaiting();
    later(25);
    await sweep();
    await settle('leave-out');
    await firm.send('technician', 'record-safety', safety(), { id: first });
    await sweep();
    expect(await stateOf(waiting)).toBe('attention');
    const [row] = await sql<{ envelope: unknown; answer: { outcome: string; problem: { type: string } } }>(
      'SELECT envelope, answer FROM command WHERE id = $1',
      [waiting],
    );
    expect(row?.answer).toMatchObject({ outcome: 'needs-attention', problem: { type: '/problems/still-waiting' } });
    const { answers } = await shift.world.office.push(firm.actors.technician, {
      sentAt: shift.world.clock.now,
      device: newId(),
      commands: [row!.envelope],
    });
    expect(answers).toEqual([row!.answer]);
  });

  test('refused when its turn comes, it is shown for the reason it was refused', async () => {
    first = newId();
    [waiting = ''] = await push(firm, newId(), [{ seq: 1, dependsOn: [first] }], newId());
    worker = await shift.worker();
    later(25);
    await sweep();
    await firm.send('technician', 'record-safety', safety(), { id: first });
    expect((await open()).map(({ reason }) => reason)).toEqual(['/problems/not-found']);
  });
});

describe('messages that were sent', () => {
  const DAY_MS = 24 * HOUR_MS;
  const fill = (tenantId: string, count: number, sentDaysAgo: number | null) =>
    sql(
      `INSERT INTO outbox (tenant_id, id, topic, body, created_at, sent_at, tries)
       SELECT $1, uuidv7(), 'duties-changed', jsonb_build_object('circuitId', $2::text), $3, $4, 0 FROM generate_series(1, $5)`,
      [
        tenantId,
        of.circuit,
        new Date(Date.parse(shift.world.clock.now) - 100 * DAY_MS),
        sentDaysAgo === null ? null : new Date(Date.parse(shift.world.clock.now) - sentDaysAgo * DAY_MS),
        count,
      ],
    );
  const counts = async (tenantId: string) =>
    (
      await sql<{ old: number; young: number; unsent: number }>(
        `SELECT count(*) FILTER (WHERE sent_at <= $2)::int AS old, count(*) FILTER (WHERE sent_at > $2)::int AS young,
          count(*) FILTER (WHERE sent_at IS NULL)::int AS unsent FROM outbox WHERE tenant_id = $1`,
        [tenantId, new Date(Date.parse(shift.world.clock.now) - 30 * DAY_MS)],
      )
    )[0];

  test('go some at a time, each contractor’s own; what waits stays however old it is', async () => {
    const [one, two] = [await shift.world.contractor('Third Firm'), await shift.world.contractor('Fourth Firm')];
    for (const { tenantId } of [one, two]) {
      await fill(tenantId, 1_200, 31);
      await fill(tenantId, 3, 29);
      await fill(tenantId, 2, null);
    }
    const { night, everyTenant, ...parts } = shift.parts();
    const cutoff = new Date(Date.parse(shift.world.clock.now) - 30 * DAY_MS);
    const tenants = await everyTenant.withSentBy(cutoff);
    expect(tenants).toEqual(expect.arrayContaining([one.tenantId, two.tenantId]));
    expect(tenants).not.toContain(firm.tenantId);
    const gone: number[] = [];
    for (let turn = 0; turn < 4; turn++) gone.push(await night.prune(one.tenantId, cutoff.toISOString()));
    expect(gone).toEqual([500, 500, 200, 0]);
    expect(await counts(one.tenantId)).toEqual({ old: 0, young: 3, unsent: 2 });
    expect(await counts(two.tenantId)).toEqual({ old: 1_200, young: 3, unsent: 2 });
    await Promise.all([everyTenant.close(), parts.database.close(), parts.backend.close()]);
  });

  test('more than thirty days ago go by themselves', async () => {
    const sooner = await shift.world.contractor('Fifth Firm');
    await fill(sooner.tenantId, 400, 30.1);
    await fill(sooner.tenantId, 4, 29.9);
    await shift.worker({ sweepMs: 200 });
    await until('pruned', async () => (await counts(sooner.tenantId))?.old === 0);
    expect(await counts(sooner.tenantId)).toMatchObject({ young: 4 });
  });

  test('are found by the index, and what waits is deleted by nobody, not even by the owner of the tables', async () => {
    const { tenantId } = await shift.world.contractor('Sixth Firm');
    await fill(tenantId, 5_000, 10);
    await fill(tenantId, 50, 40);
    await fill(tenantId, 1, null);
    await sql('ANALYZE outbox');
    const plan = await sql<{ 'QUERY PLAN': string }>(
      `EXPLAIN SELECT id FROM outbox WHERE tenant_id = '${tenantId}' AND sent_at <= '2026-03-25' ORDER BY sent_at LIMIT 500`,
    );
    expect(plan.map((line) => line['QUERY PLAN']).join('\n')).toContain('outbox_tenant_id_sent_at_created_at_idx');
    for (const url of [shift.world.database.urls.application, shift.world.database.urls.owner]) {
      const client = new pg.Client({ connectionString: url });
      await client.connect();
      await client.query(`SELECT set_config('app.tenant_id', $1, false)`, [tenantId]);
      const unsent = client.query('DELETE FROM outbox WHERE sent_at IS NULL');
      await expect(unsent).rejects.toMatchObject({ code: '23001' });
      await client.end();
    }
  });
});
