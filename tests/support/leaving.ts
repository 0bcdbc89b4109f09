/** A contractor's file of everything, made and taken over as the night's work does it. */
import { createHash } from 'node:crypto';
import { createNight } from '@ullage/casework';
import type { Actor, Night } from '@ullage/casework';
import type { ParcelView } from '@ullage/contracts';
import { Database } from '@ullage/database';
import { afterAll } from 'vitest';
import { calendar, newId } from './office.ts';
import type { TestOffice } from './office.ts';

/** The night's work on the same database and clock. */
export function nightOf(world: TestOffice): Night {
  const database = new Database({ url: world.database.urls.application, name: 'test night', connections: 4 });
  afterAll(() => database.close());
  return createNight({ database, calendar, now: () => world.clock.now, newId });
}

export async function bytesOf(world: TestOffice, actor: Actor, id: string): Promise<Buffer> {
  const file = await world.office.exportFile(actor, id);
  const pieces: Uint8Array[] = [];
  for await (const piece of file.content) pieces.push(piece);
  return Buffer.concat(pieces);
}

/** The file of everything, as an owner downloads it. */
export async function exported(world: TestOffice, night: Night, owner: Actor): Promise<Buffer> {
  const { id } = await world.office.askExport(owner);
  await night.workParcel({ tenantId: owner.tenantId, id }, () => true);
  return bytesOf(world, owner, id);
}

/** Sends a file, as a browser does; gives its id. */
export async function sent(world: TestOffice, owner: Actor, file: Uint8Array): Promise<string> {
  const mark = createHash('sha256').update(file).digest('hex');
  const { id, partBytes, missing } = await world.office.nameTakeOver(owner, { bytes: file.length, mark });
  for (const number of missing)
    await world.office.receiveParcelPart(owner, {
      id,
      number,
      content: file.subarray(number * partBytes, (number + 1) * partBytes),
    });
  return id;
}

export async function takenOver(
  world: TestOffice,
  night: Night,
  { owner, file }: { owner: Actor; file: Uint8Array },
): Promise<ParcelView> {
  const id = await sent(world, owner, file);
  await world.office.beginTakeOver(owner, id);
  await night.workParcel({ tenantId: owner.tenantId, id }, () => true);
  return lastTakeOver(world, owner);
}

export async function lastTakeOver(world: TestOffice, owner: Actor): Promise<ParcelView> {
  const { takeOver } = await world.office.leaving(owner);
  if (!takeOver) throw new Error('nothing was taken over');
  return takeOver;
}
