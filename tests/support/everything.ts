/** A contractor to whom everything has happened that can: every command, photos, nights, refusals that were tried again. */
import { createHash } from 'node:crypto';
import type { Night } from '@ullage/casework';
import { COMMAND_NAMES, COMMANDS, may, PHOTO_PART_BYTES, Refusal, ROLES } from '@ullage/contracts';
import type { CommandName, Role } from '@ullage/contracts';
import { bodiesOf, decided } from './bodies.ts';
import type { Scene } from './bodies.ts';
import { newId } from './office.ts';
import type { Contractor, TestOffice } from './office.ts';
import { told } from './told.ts';

const HOUR_MS = 3_600_000;
const roleFor = (kind: CommandName): Role => ROLES.find((role) => may(role, COMMANDS[kind].permission)) ?? 'owner';

export interface Lived {
  readonly firm: Contractor;
  readonly scene: Scene;
  /** Kinds that were applied. */
  readonly applied: ReadonlySet<CommandName>;
  readonly photo: string;
}

export async function everything(world: TestOffice, night: Night): Promise<Lived> {
  const { firm, scene } = await told(world);
  await decided({ world, firm, scene });
  const bodies = bodiesOf({ world, firm, scene });
  const applied = new Set<CommandName>();
  // What leaves somebody out, closes or withdraws comes after what needs it.
  const last: readonly CommandName[] = ['finish-visit', 'retire-instrument', 'deactivate-person', 'unplace-visit'];
  const order = [...COMMAND_NAMES.filter((kind) => !last.includes(kind)), ...last];
  for (const kind of order) {
    pass(world, 60_000);
    const sent = firm.send(roleFor(kind), kind, (await bodies[kind]()) as never);
    await sent.then(
      () => applied.add(kind),
      (error: unknown) => {
        if (!(error instanceof Refusal)) throw error;
      },
    );
  }
  const photo = await aPhoto(world, firm);
  await triedAgain(world, night, { firm, scene });
  for (let day = 0; day < 45; day++) {
    pass(world, 24 * HOUR_MS);
    await aNight(world, firm, night);
  }
  return { firm, scene, applied, photo };
}

export function pass(world: TestOffice, ms: number): void {
  world.clock.now = new Date(Date.parse(world.clock.now) + ms).toISOString();
}

/** Law that time changed, and every reminder whose time has come. */
export async function aNight(world: TestOffice, { tenantId }: Contractor, night: Night): Promise<void> {
  await night.recomputeDue(tenantId);
  const circuits = await world.sql<{ id: string }>('SELECT id FROM circuit WHERE tenant_id = $1 ORDER BY id', [
    tenantId,
  ]);
  for (const { id } of circuits)
    for (const { body, planAt } of (await night.reminders(tenantId, id)).wanted)
      if (planAt <= world.clock.now) await night.remind(body);
}

/** Seven letters that begin as a JPEG does, large enough for two parts. */
async function aPhoto(world: TestOffice, firm: Contractor): Promise<string> {
  const bytes = new Uint8Array(PHOTO_PART_BYTES + 7).fill(7);
  bytes.set([0xff, 0xd8, 0xff, 0xe0]);
  const hash = createHash('sha256').update(bytes).digest('hex');
  const { technician } = firm.actors;
  await world.office.namePhoto(technician, { hash, bytes: bytes.length });
  const small = new Uint8Array([...Buffer.from('RIFF____WEBPVP8 ')]);
  const read = () => Promise.resolve({ width: 40, height: 30, thumbnail: small });
  for (const number of [0, 1]) {
    const content = bytes.subarray(number * PHOTO_PART_BYTES, (number + 1) * PHOTO_PART_BYTES);
    await world.office.receivePart(technician, { part: { hash, number, content }, read });
  }
  return hash;
}

/** A device's command that is refused, tried again once what it lacked is there, and one that waits for another. */
async function triedAgain(
  world: TestOffice,
  night: Night,
  { firm, scene }: { firm: Contractor; scene: Scene },
): Promise<void> {
  const device = newId();
  const [locationId, first, second, third] = [newId(), newId(), newId(), newId()];
  const command = (id: string, seq: number, more: object) => ({
    ...{ id, device, deviceSeq: seq, happenedAt: world.clock.now, dependsOn: [] },
    ...more,
  });
  const push = (...commands: object[]) =>
    world.office.push(firm.actors.warehouse, { sentAt: world.clock.now, device, commands });
  const change = { schema: 'change-location', body: { locationId, name: 'Yard, north' } };
  await push(command(first, 1, change));
  await push(
    command(second, 2, { schema: 'change-location', body: { locationId, elevationM: 12 }, dependsOn: [third] }),
  );
  pass(world, HOUR_MS);
  await firm.send('warehouse', 'register-location', { locationId, kind: 'warehouse', name: 'Yard', elevationM: 1600 });
  const { items } = await world.office.attention(firm.actors.owner);
  const item = items.find(({ commandId }) => commandId === first);
  await firm.send('manager', 'settle-attention', { attentionId: item?.id ?? '', how: 'try-again' });
  pass(world, 25 * HOUR_MS);
  await night.showLongWaits(firm.tenantId);
  await push(command(third, 3, { schema: 'change-location', body: { locationId, name: 'Yard, south' } }));
  await push(
    command(newId(), 4, {
      schema: 'hand-over',
      body: { cylinders: [{ cylinderId: scene.of.newGas, fromId: newId() }], toId: locationId },
    }),
  );
}
