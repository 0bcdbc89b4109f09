/** Commands that wait for others: whose turn has come, and carrying them out as the people who sent them. */
import { Refusal, Role } from '@ullage/contracts';
import type { CommandName } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { applyOnce } from './apply.ts';
import { readDesk, readDevice } from './envelope.ts';
import type { Incoming } from './envelope.ts';
import { restored } from './envelope-text.ts';
import { keepStored } from './keep.ts';

/** On whose account it happens now: whoever brought what was waited for, or nobody but time. */
export type Bringer = Pick<Actor, 'tenantId' | 'address'>;

export interface Carried {
  /** Commands applied. */
  readonly applied: number;
  /** What went wrong with single commands, refusals aside; the others had their turn all the same. */
  readonly faults: readonly unknown[];
}

/** Carries out what waited for a command that is now applied, and what that in turn held up. */
export const carryOnAfter = async (world: World, by: Bringer, arrivedId: string): Promise<Carried> =>
  carryOut(world, by, await waitersOf(world, by.tenantId, arrivedId));

/** Carries out commands that are kept waiting, each device's in its own order; those they held up take their turn among them. */
export async function carryOut(world: World, by: Bringer, first: readonly StoredCommand[]): Promise<Carried> {
  const queue = new Map(first.map((command) => [command.id, command]));
  const faults: unknown[] = [];
  let applied = 0;
  for (let next = nextOf(queue); next; next = nextOf(queue)) {
    queue.delete(next.id);
    try {
      if (!(await applyStored(world, by, next))) continue;
      applied += 1;
      for (const held of await waitersOf(world, by.tenantId, next.id)) queue.set(held.id, held);
    } catch (fault) {
      faults.push(fault);
    }
  }
  return { applied, faults };
}

export interface StoredCommand {
  readonly id: string;
  readonly kind: string;
  readonly envelope: unknown;
  readonly deviceId: string | null;
  readonly deviceSeq: bigint | null;
  readonly sentAt: Date | null;
  readonly receivedAt: Date;
  readonly userId: string;
}

/** By device, each in the order of its own numbers; what has none by arrival. */
function byTurn(a: StoredCommand, b: StoredCommand): number {
  const keyOf = (one: StoredCommand): string =>
    [one.deviceId ?? '', String(one.deviceSeq ?? '').padStart(20, '0'), one.receivedAt.toISOString(), one.id].join(' ');
  return keyOf(a) < keyOf(b) ? -1 : 1;
}
const nextOf = (queue: ReadonlyMap<string, StoredCommand>): StoredCommand | undefined =>
  [...queue.values()].sort(byTurn)[0];

function waitersOf(world: World, tenantId: string, arrivedId: string): Promise<StoredCommand[]> {
  return world.database.inTenant(tenantId, (tx) =>
    tx.command.findMany({ where: { tenantId, state: 'waiting', commandWaits: { some: { waitsFor: arrivedId } } } }),
  );
}

/** Waiting commands by their ids. */
export const storedCommands = (tx: Tx, tenantId: string, ids: readonly string[]): Promise<StoredCommand[]> =>
  tx.command.findMany({ where: { tenantId, id: { in: [...ids] }, state: 'waiting' } });

/** Runs a kept command as the one who sent it, in the role they have now. Its refusal is its own affair, and kept. */
async function applyStored(world: World, by: Bringer, command: StoredCommand): Promise<boolean> {
  try {
    const sender = await senderOf(world, by, command.userId);
    const { outcome } = await applyOnce(world, sender, readStored(world, sender, command));
    return outcome === 'applied' || outcome === 'already-applied';
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await keepStored(world, by.tenantId, { id: command.id, refusal: error });
    return false;
  }
}

async function senderOf(world: World, by: Bringer, userId: string): Promise<Actor> {
  const { tenantId } = by;
  const person = await world.database.inTenant(tenantId, (tx) =>
    tx.person.findFirst({ where: { tenantId, userId, active: true }, select: { role: true } }),
  );
  const role = Role.safeParse(person?.role);
  if (!role.success) throw new Refusal('not-allowed', 'Who sent this does not belong to the contractor any more.');
  return { ...by, userId, role: role.data };
}

function readStored(world: World, sender: Actor, command: StoredCommand): Incoming {
  const receivedAt = command.receivedAt.toISOString();
  if (command.deviceId !== null) {
    const sentAt = command.sentAt?.toISOString() ?? receivedAt;
    return readDevice(world, sender, { received: restored(command.envelope), sentAt, receivedAt });
  }
  const { kind, ...received } = command.envelope as { kind: CommandName };
  return readDesk(world, sender, { id: command.id, kind, received, receivedAt });
}
