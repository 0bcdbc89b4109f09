import { beforeAll, describe, expect, test } from 'vitest';
import type { Actor } from '@ullage/casework';
import type { NoticesView } from '@ullage/contracts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { onDay } from '../support/day.ts';
import { told } from '../support/told.ts';

let world: TestOffice;
let firm: Contractor;
/** Another dispatcher, to whom the same notices go. */
let other: Actor;
/** Of the contractor's duties; none of them is open any more but the first. */
let duties: string[];
beforeAll(async () => {
  world = await openTestOffice(onDay('2026-04-30')('07:30'));
  ({ firm } = await told(world));
  const [user] = await world.sql<{ id: string }>(
    `INSERT INTO auth."user" (name, email, "emailVerified", "updatedAt") VALUES ('Isa Thorn', $1, true, now()) RETURNING id`,
    [`${newId()}@firm.example`],
  );
  await world.sql(
    `INSERT INTO auth.member ("organizationId", "userId", role, "createdAt") VALUES ($1, $2, 'dispatcher', now())`,
    [firm.tenantId, user!.id],
  );
  other = { tenantId: firm.tenantId, userId: user!.id, role: 'dispatcher' };
  duties = (await world.sql<{ id: string }>('SELECT id FROM duty ORDER BY id')).map(({ id }) => id);
  await stand(duties[0]!, 'open');
});

const stand = (duty: string, state: string) => world.sql('UPDATE duty SET state = $2 WHERE id = $1', [duty, state]);
let minute = 0;
async function notice(duty: string, role = 'dispatcher'): Promise<string> {
  const id = newId();
  await world.sql(
    `INSERT INTO notice (tenant_id, id, role, kind, duty_id, body, at)
     VALUES ($1, $2, $3, 'reminder', $4, '{"stage":7}', $5::timestamptz + make_interval(mins => $6))`,
    [firm.tenantId, id, role, duty, world.clock.now, ++minute],
  );
  return id;
}
const seenBy = async (actor: Actor, id: string): Promise<NoticesView['items'][number] | undefined> =>
  (await world.office.notices(actor)).items.find((item) => item.id === id);
const mark = (noticeIds: string[], actor = firm.actors.dispatcher) =>
  world.office.apply(actor, { id: newId(), kind: 'mark-notices-read', received: { body: { noticeIds } } });
const feed = async (): Promise<number> =>
  (await world.sql(`SELECT 1 FROM feed WHERE tenant_id = $1 AND kind = 'notice'`, [firm.tenantId])).length;

describe('a notice that is ticked off', () => {
  test('is read by whoever ticked it, and still new to the others of the role', async () => {
    const id = await notice(duties[0]!);
    await mark([id]);
    expect(await seenBy(firm.actors.dispatcher, id)).toMatchObject({ read: true, over: null });
    expect(await seenBy(other, id)).toMatchObject({ read: false, over: null });
  });
  test('is told to the other tabs once; ticked again, or in two tabs at once, it is read once and tells nobody', async () => {
    const id = await notice(duties[0]!);
    const before = await feed();
    await Promise.all([mark([id]), mark([id])]);
    const after = await feed();
    expect(after - before).toBeGreaterThanOrEqual(1);
    await mark([id]);
    expect(await feed()).toBe(after);
    expect(await world.sql('SELECT 1 FROM notice_read WHERE notice_id = $1', [id])).toHaveLength(1);
  });
  test('went to whoever ticks it: another role’s is nothing to them, and a batch with one such ticks none', async () => {
    const [mine, theirs] = [await notice(duties[0]!), await notice(duties[0]!, 'manager')];
    await expect(mark([mine, theirs])).rejects.toMatchObject({ code: 'not-found' });
    expect(await seenBy(firm.actors.dispatcher, mine)).toMatchObject({ read: false });
    expect(await seenBy(firm.actors.manager, theirs)).toMatchObject({ read: false });
  });
  test('is named: none, or an auditor who changes nothing, is refused', async () => {
    await expect(mark([])).rejects.toMatchObject({
      code: 'not-valid',
      errors: [{ pointer: '#/body/noticeIds', detail: 'Notices: choose at least one.' }],
    });
    await expect(mark([newId()], firm.actors.auditor)).rejects.toMatchObject({ code: 'not-allowed' });
  });
});

describe('a notice nobody has to act on any more', () => {
  test.each([
    ['discharged', 'discharged'],
    ['discharged-late', 'discharged'],
    ['withdrawn', 'withdrawn'],
    ['suspended', 'suspended'],
  ])('of a duty that is %s leaves the open list and is kept', async (state, over) => {
    const id = await notice(duties[1]!);
    await stand(duties[1]!, 'open');
    expect(await seenBy(firm.actors.dispatcher, id)).toMatchObject({ over: null });
    await stand(duties[1]!, state);
    expect(await seenBy(firm.actors.dispatcher, id)).toMatchObject({ over });
  });
  test('comes back when its duty stands again', async () => {
    const id = await notice(duties[1]!);
    await stand(duties[1]!, 'withdrawn');
    await stand(duties[1]!, 'open');
    expect(await seenBy(firm.actors.dispatcher, id)).toMatchObject({ over: null });
  });
  test('of an earlier stage of the same duty gives way to the later one', async () => {
    const [first, second] = [await notice(duties[0]!), await notice(duties[0]!)];
    expect(await seenBy(firm.actors.dispatcher, first)).toMatchObject({ over: 'said-later' });
    expect(await seenBy(firm.actors.dispatcher, second)).toMatchObject({ over: null });
  });
  test('stands after all that waits, and leads to its unit', async () => {
    await stand(duties[1]!, 'discharged');
    const { items } = await world.office.notices(firm.actors.dispatcher);
    const states = items.map(({ over }) => (over === 'discharged' ? 'done' : 'stands'));
    expect(states).toEqual(states.toSorted().toReversed());
    expect(items[0]).toMatchObject({ circuitLetter: 'A', unitId: expect.stringMatching(/^[0-9a-f-]{36}$/) });
  });
});
