import { beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Scene } from '../support/bodies.ts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { told } from '../support/told.ts';

const today = onDay('2026-04-30');
let world: TestOffice;
let firm: Contractor;
let scene: Scene;
beforeAll(async () => {
  world = await openTestOffice(today('17:00'));
  ({ firm, scene } = await told(world));
}, 60_000);
beforeEach(() => {
  world.clock.now = today('17:00');
});

const safety = (visitId = scene.onSite) => ({ visitId, checks: [], notDone: [] });
const stateOf = async (id: string) =>
  (await world.sql<{ state: string }>('SELECT state FROM command WHERE id = $1', [id]))[0]?.state;
const factAt = async (id: string) =>
  (await world.office.visit(firm.actors.owner, scene.onSite)).facts.find((fact) => fact.id === id)?.happenedAt;

describe('a command that waits for another', () => {
  test('keeps the time at which it happened, however long it waits', async () => {
    const [first, fromDesk, fromDevice, device] = [newId(), newId(), newId(), newId()];
    await firm.send('technician', 'record-safety', safety(), { id: fromDesk, dependsOn: [first] });
    const command = {
      id: fromDevice,
      schema: 'record-safety',
      device,
      deviceSeq: 1,
      happenedAt: today('16:50'),
      dependsOn: [first],
      body: safety(),
    };
    const pushed = await world.office.push(firm.actors.technician, {
      sentAt: today('17:00'),
      device,
      commands: [command],
    });
    expect(pushed.answers[0]?.outcome).toBe('waiting');
    // Sent without a time: it happened when it was sent.
    await firm.send('technician', 'record-safety', safety(), { id: newId() });
    world.clock.now = today('19:30');
    await firm.send('technician', 'record-safety', safety(), { id: first });
    expect([await factAt(fromDesk), await factAt(fromDevice)]).toEqual([today('17:00'), today('16:50')]);
  });

  test('is carried out as its sender in their own role, not as whoever brings what it waited for', async () => {
    const [first, person] = [newId(), newId()];
    const named = { personId: person, name: 'Ada Moss', certificates: [] };
    await firm.send('manager', 'register-person', named, { dependsOn: [first] });
    await firm.send('technician', 'record-safety', safety(), { id: first });
    const { items } = await world.office.people(firm.actors.owner, { invitations: [], mailsLinks: false });
    expect(items.map(({ name }) => name)).toContain('Ada Moss');
  });

  test('is refused when its turn comes: that is kept for a person, and the one it waited for is answered as applied', async () => {
    const [first, second] = [newId(), newId()];
    await firm.send('technician', 'record-safety', safety(newId()), { id: second, dependsOn: [first] });
    expect(await firm.send('technician', 'record-safety', safety(), { id: first })).toMatchObject({
      outcome: 'applied',
    });
    const { items } = await world.office.attention(firm.actors.dispatcher);
    const item = items.find(({ commandId }) => commandId === second);
    expect(item).toMatchObject({ reason: '/problems/not-found', closedAt: null });
    // Tried again it is refused again, and stays with a person; the settling itself is no fault.
    const settle = { attentionId: item!.id, how: 'try-again' } as const;
    expect(await firm.send('dispatcher', 'settle-attention', settle)).toMatchObject({ outcome: 'applied' });
    const open = (await world.office.attention(firm.actors.dispatcher)).items.filter(
      ({ commandId, closedAt }) => commandId === second && closedAt === null,
    );
    expect(open).toHaveLength(1);
    expect(await stateOf(second)).toBe('attention');
  });

  test('of a sender who has left the firm is kept for a person', async () => {
    const [first, second] = [newId(), newId()];
    const { userId } = firm.actors.warehouse;
    const instrument = { instrumentId: newId(), kind: 'scale', tag: 'S-9' } as const;
    await firm.send('warehouse', 'register-instrument', instrument, { id: second, dependsOn: [first] });
    await world.sql('DELETE FROM auth.member WHERE "organizationId" = $1 AND "userId" = $2', [firm.tenantId, userId]);
    await firm.send('technician', 'record-safety', safety(), { id: first });
    expect(await stateOf(second)).toBe('attention');
  });

  test('and what it waits for, sent at the same moment, forty times: none waits for ever, and each is done once', async () => {
    for (let round = 0; round < 40; round += 1) {
      const [first, second, third] = [newId(), newId(), newId()];
      await Promise.all([
        firm.send('technician', 'record-safety', safety(), { id: third, dependsOn: [first, second] }),
        firm.send('owner', 'record-safety', safety(), { id: second, dependsOn: [first] }),
        firm.send('manager', 'record-safety', safety(), { id: first }),
      ]);
      for (const id of [first, second, third]) expect(await stateOf(id), `round ${round}`).toBe('applied');
    }
    const [left] = await world.sql<{ n: number }>(`SELECT count(*)::int AS n FROM command WHERE state = 'waiting'`);
    expect(left?.n).toBe(0);
  }, 60_000);
});
