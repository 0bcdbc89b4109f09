import { dayWords } from '@ullage/units';
import { beforeAll, describe, expect, test } from 'vitest';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { cylinders, ids, run, theCall, visitSteps } from '../support/story.ts';
import type { StoryIds } from '../support/story.ts';

describe('the same command twice, two people at once, a device with a wrong clock', () => {
  let world: TestOffice;
  let firm: Contractor;
  let of: StoryIds;
  const today = onDay('2026-04-30');
  beforeAll(async () => {
    world = await openTestOffice(today('17:00'));
    firm = await world.contractor();
    of = ids();
    await firm.send('dispatcher', 'take-call', theCall(of, { first: '2025-12-01', second: '2026-02-14' }), {
      at: today('07:30'),
    });
    for (const [personId, name] of [
      [of.technician, 'Rosa Quill'],
      [of.apprentice, 'Bram Ferris'],
    ] as const) {
      await firm.send('manager', 'register-person', {
        personId,
        name,
        certificates: [{ id: newId(), scheme: 'us-608', type: 'universal' }],
      });
    }
    await firm.send('warehouse', 'register-cylinder', cylinders(of).newGas, { at: today('07:40') });
    await firm.send('warehouse', 'register-cylinder', cylinders(of).recovery, { at: today('07:41') });
  });
  const table = async () => {
    const { accounts, totals } = await world.office.books(firm.actors.auditor);
    return { books: accounts.map((row) => [row.title, row.balances.map((balance) => balance.grams)]), totals };
  };

  test('a hundred races for one visit: one placement, one answer that names the winner and the time', async () => {
    for (let race = 0; race < 100; race++) {
      const visitId = newId();
      await firm.send('dispatcher', 'take-call', {
        customer: { id: of.customer },
        site: { id: of.site },
        unit: { id: of.unit },
        circuit: { id: of.circuit },
        history: [],
        visit: { id: visitId },
      });
      const day = `2026-05-${String(4 + (race % 5)).padStart(2, '0')}`;
      const place = (personId: string, time: string) =>
        firm.send('dispatcher', 'place-visit', {
          visitId,
          version: 1,
          personId,
          day,
          time,
          minutes: 30,
          override: { 'double-booked': 'a race', 'outside-working-day': 'a race' },
        });
      const results = await Promise.allSettled([place(of.technician, '08:00'), place(of.apprentice, '09:15')]);
      const lost = results.filter((result) => result.status === 'rejected');
      expect(lost).toHaveLength(1);
      const { people, startsAt } = (await world.office.visit(firm.actors.owner, visitId)).visit;
      expect(people).toHaveLength(1);
      expect(lost[0]!.reason).toMatchObject({
        code: 'stale',
        message: `Placed already: ${people[0]!.name}, ${dayWords(day)}, ${people[0]!.name === 'Rosa Quill' ? '08:00' : '09:15'}.`,
      });
      expect(startsAt).not.toBeNull();
      const { version } = (await world.office.visit(firm.actors.owner, visitId)).visit;
      await firm.send('dispatcher', 'unplace-visit', { visitId, version });
    }
  }, 120_000);

  test('one charge sent eight times at once moves its gas once, and says so to the others', async () => {
    const visit = await world.office.visit(firm.actors.owner, of.visit);
    await firm.send('dispatcher', 'place-visit', {
      visitId: of.visit,
      version: visit.visit.version,
      personId: of.technician,
      day: '2026-05-12',
      time: '09:00',
      minutes: 60,
    });
    const before = await table();
    const [, , charge] = visitSteps(of, today).filter(
      ([kind]) => kind === 'record-charge' || kind === 'record-recovery',
    );
    const [kind, body, options] = charge!;
    const answers = await Promise.all(
      Array.from({ length: 8 }, () => firm.send('technician', kind, body as never, options)),
    );
    expect(answers.map((answer) => answer.outcome).sort()).toEqual([
      ...Array<string>(7).fill('already-applied'),
      'applied',
    ]);
    const after = await table();
    expect(after).not.toEqual(before);
    await firm.send('technician', kind, body as never, options);
    expect(await table()).toEqual(after);
    expect(after.totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
    await expect(
      firm.send('technician', kind, { ...(body as object), full: 'unknown' } as never, options),
    ).rejects.toMatchObject({ code: 'command-changed' });
    expect(await table()).toEqual(after);
  });

  test('a bad command in a batch is kept whole and blocks nothing', async () => {
    const device = newId();
    const envelope = (deviceSeq: number, schema: string, body: unknown) => ({
      id: newId(),
      schema,
      device,
      deviceSeq,
      happenedAt: today('15:00'),
      dependsOn: [],
      body,
    });
    const bad = envelope(1, 'record-charge', {
      visitId: of.visit,
      circuitId: of.circuit,
      cylinderId: of.newGas,
      before: { value: '-4', unit: 'lb' },
      after: { value: '1', unit: 'lb' },
      full: 'no',
    });
    const good = envelope(2, 'record-safety', { visitId: of.visit, checks: ['ventilated'], notDone: [] });
    const foreign = envelope(3, 'record-safety', { visitId: newId(), checks: [], notDone: [] });
    const { answers } = await world.office.push(firm.actors.technician, {
      sentAt: world.clock.now,
      device,
      commands: [good, bad, foreign],
    });
    expect(answers.map((answer) => [answer.id, answer.outcome])).toEqual([
      [bad.id, 'needs-attention'],
      [good.id, 'applied'],
      [foreign.id, 'needs-attention'],
    ]);
    expect(answers[0]?.problem?.errors).toEqual([
      { pointer: '#/body/before/value', detail: 'Gross before: cannot be below zero; enter what the scale showed.' },
    ]);
    expect(answers[2]?.problem).toEqual({
      type: '/problems/not-found',
      status: 404,
      title: 'Not here',
      detail: 'There is nothing here under that id.',
    });
    const { items } = await world.office.attention(firm.actors.dispatcher);
    expect(items.map((item) => item.commandId)).toEqual(expect.arrayContaining([bad.id, foreign.id]));
    expect(items.find((item) => item.commandId === bad.id)?.envelope).toMatchObject(bad);
    const again = await world.office.push(firm.actors.technician, { sentAt: world.clock.now, device, commands: [bad] });
    expect(again.answers[0]?.outcome).toBe('needs-attention');
    expect((await world.office.attention(firm.actors.dispatcher)).items).toHaveLength(items.length);
  });

  test('a device an hour behind is noticed; its facts get the right time and both are kept', async () => {
    const device = newId();
    const id = newId();
    const command = {
      id,
      schema: 'record-safety',
      device,
      deviceSeq: 1,
      happenedAt: today('15:30'),
      dependsOn: [],
      body: { visitId: of.visit, checks: [], notDone: [] },
    };
    world.clock.now = today('17:00');
    const { answers } = await world.office.push(firm.actors.technician, {
      sentAt: today('16:00'),
      device,
      commands: [command],
    });
    expect(answers[0]).toMatchObject({ outcome: 'applied', clockSkewSeconds: 3600 });
    const visit = await world.office.visit(firm.actors.owner, of.visit);
    expect(visit.facts.find((fact) => fact.id === id)?.happenedAt).toBe(today('16:30'));
    const [row] = await world.sql<{ stated: string; sent: Date }>(
      `SELECT envelope ->> 'happenedAt' AS stated, sent_at AS sent FROM command WHERE id = $1`,
      [id],
    );
    expect([row?.stated, row?.sent.toISOString()]).toEqual([today('15:30'), today('16:00')]);
  });

  test('twenty people at once on one circuit and one cylinder: nothing is lost and every gram is somewhere', async () => {
    const steps = Array.from(
      { length: 20 },
      (_, index) =>
        [
          'record-charge',
          {
            visitId: of.visit,
            circuitId: of.circuit,
            cylinderId: of.newGas,
            before: { value: String(50_000 - index * 100), unit: 'g' },
            after: { value: String(49_900 - index * 100), unit: 'g' },
            full: 'no',
          },
          { at: today('16:40') },
        ] as const,
    );
    const before = (await world.sql<{ n: number }>(`SELECT count(*)::int AS n FROM fact WHERE kind = 'charge'`))[0]!.n;
    await Promise.all(steps.map((step) => run(firm, [step as never])));
    const after = (await world.sql<{ n: number }>(`SELECT count(*)::int AS n FROM fact WHERE kind = 'charge'`))[0]!.n;
    expect(after - before).toBe(20);
    expect((await table()).totals).toEqual([{ refrigerant: 'R-448A', grams: 0 }]);
    const [feed] = await world.sql<{ n: string; top: string }>(
      'SELECT count(*) AS n, max(number) AS top FROM feed WHERE tenant_id = $1',
      [firm.tenantId],
    );
    expect(feed!.n).toBe(feed!.top); // numbered without gaps
  }, 60_000);
});
