import { beforeAll, expect, test } from 'vitest';
import type { Role } from '@ullage/contracts';
import { onDay } from '../support/day.ts';
import { newId, openTestOffice } from '../support/office.ts';
import type { Contractor, TestOffice } from '../support/office.ts';
import { ready } from '../faults/batch.ts';

const today = onDay('2026-04-30');
let world: TestOffice;
let firm: Contractor;
let visitId: string;
beforeAll(async () => {
  world = await openTestOffice(today('17:00'));
  const made = await ready(world);
  firm = made.firm;
  visitId = made.of.visit;
}, 60_000);

let seq = 0;
const note = (more: { body?: unknown; dependsOn?: string[] } = {}) => ({
  id: newId(),
  schema: 'record-safety',
  device: '019dbd74-2a00-7000-8000-000000000001',
  deviceSeq: (seq += 1),
  happenedAt: today('16:00'),
  dependsOn: [],
  body: { visitId, checks: [], notDone: [] },
  ...more,
});
const push = async (...commands: ReturnType<typeof note>[]) => {
  const sent = { sentAt: world.clock.now, device: commands[0]!.device, commands };
  return (await world.office.push(firm.actors.technician, sent)).answers.map(({ outcome }) => outcome);
};
const standing = async (id: string, role: Role = 'technician') => {
  const asked = { epoch: 0, number: 0, commandIds: [id] };
  return (await world.office.pull(firm.actors[role], asked)).standing[0]?.state;
};
const open = async (id: string) =>
  (await world.office.attention(firm.actors.owner)).items.filter(
    (one) => one.commandId === id && one.closedAt === null,
  );

test('one that waits is never applied once it is taken back, though what it waited for comes', async () => {
  const first = note();
  const second = note({ dependsOn: [first.id] });
  expect(await push(second)).toEqual(['waiting']);
  await expect(firm.send('manager', 'withdraw-command', { commandId: second.id })).rejects.toThrow('nothing here');
  await firm.send('technician', 'withdraw-command', { commandId: second.id });
  expect(await push(first)).toEqual(['applied']);
  expect([await standing(first.id), await standing(second.id)]).toEqual(['applied', 'left-out']);
  expect([await standing(first.id, 'manager'), await standing(newId())]).toEqual(['unknown', 'unknown']);
  await expect(firm.send('technician', 'withdraw-command', { commandId: first.id })).rejects.toThrow(
    'applied meanwhile',
  );
});

test('one that comes after it was taken back is not applied, and asks nobody', async () => {
  const late = note();
  await firm.send('technician', 'withdraw-command', { commandId: late.id });
  expect(await push(late)).toEqual(['needs-attention']);
  expect(await standing(late.id)).toBe('left-out');
  expect(await open(late.id)).toEqual([]);
});

test('what somebody has left out is not asked again because its device says it again', async () => {
  const bad = note({ body: {} });
  expect(await push(bad)).toEqual(['needs-attention']);
  const [item] = await open(bad.id);
  expect(await standing(bad.id)).toBe('attention');
  await firm.send('dispatcher', 'settle-attention', { attentionId: item!.id, how: 'leave-out' });
  expect(await push(bad)).toEqual(['needs-attention']);
  expect(await open(bad.id)).toEqual([]);
});
