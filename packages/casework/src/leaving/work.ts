/** The night's side of leaving: makes a file that was asked for, or takes one over. */
import type { Prisma } from '@ullage/database';
import type { World } from '../office.ts';
import { toDate } from '../pipeline/case.ts';
import { BadFile } from './bad-file.ts';
import type { Found } from './bad-file.ts';
import { checkFile } from './check-file.ts';
import { Hold, Interrupted, Lost } from './hold.ts';
import { makeExport } from './make-export.ts';
import { readerOf, TooLarge } from './parts.ts';
import type { ParcelRef } from './parts.ts';
import { takeOver } from './take-over.ts';
import { ZipIn } from './zip-in.ts';

/** Whoever died over it so often will die again. */
const TRIES_MAX = 8;
const DAY_MS = 86_400_000;

/** What became of it; `later`: it goes on when it is taken again. */
export type Worked = 'nothing' | 'done' | 'refused' | 'failed' | 'later';

/** Works on one file for as long as `goesOn` says; safe to repeat, and for several to try at once. */
export async function workParcel(world: World, ref: ParcelRef, goesOn: () => boolean): Promise<Worked> {
  const hold = await Hold.take(world, ref, goesOn);
  if (!hold) return 'nothing';
  const { tenantId, id } = ref;
  const row = await world.database.inTenant(tenantId, (tx) =>
    tx.parcel.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id } } }),
  );
  if (row.tries > TRIES_MAX)
    return end(world, ref, { state: 'failed', found: [{ where: 'The file', detail: 'Could not be worked on.' }] });
  try {
    if (row.kind === 'export') {
      await makeExport(world, ref, hold);
      return 'done';
    }
    const zip = await ZipIn.open(readerOf(world, ref), row.bytes ?? 0);
    const manifest = await checkFile(zip, hold);
    const { name, madeAt, accounts } = manifest;
    await world.database.inTenant(tenantId, (tx) =>
      tx.parcel.updateMany({ where: { tenantId, id }, data: { manifest: { name, madeAt, accounts } } }),
    );
    const found = await takeOver({ world, tenantId, zip, hold, manifest });
    return await end(world, ref, { state: 'done', found });
  } catch (error) {
    if (error instanceof Lost) return 'later';
    if (error instanceof Interrupted) {
      await hold.letGo();
      return 'later';
    }
    if (error instanceof BadFile) return end(world, ref, { state: 'refused', found: error.found });
    if (error instanceof TooLarge)
      return end(world, ref, { state: 'failed', found: [{ where: 'The file', detail: error.message }] });
    throw error;
  }
}

async function end(
  world: World,
  { tenantId, id }: ParcelRef,
  to: { state: 'done' | 'refused' | 'failed'; found: readonly Found[] },
): Promise<Worked> {
  const now = toDate(world.now());
  await world.database.inTenant(tenantId, async (tx) => {
    const { count } = await tx.parcel.updateMany({
      where: { tenantId, id, state: 'working' },
      data: {
        state: to.state,
        step: null,
        found: to.found as unknown as Prisma.InputJsonValue,
        endedAt: now,
        expiresAt: new Date(now.getTime() + DAY_MS),
      },
    });
    const { kind } = await tx.parcel.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id } } });
    if (count === 1 && kind === 'take-over')
      await tx.tenant.update({ where: { id: tenantId }, data: { takingOver: false } });
  });
  await world.database.notify('ullage_feed', tenantId);
  return to.state;
}

/** Throws away the bytes of what has had its time; what never arrived whole ends with them. */
export function expireParcel(world: World, { tenantId, id }: ParcelRef): Promise<void> {
  const now = toDate(world.now());
  return world.database.inTenant(tenantId, async (tx) => {
    const due = { tenantId, id, expiresAt: { lte: now } };
    await tx.parcel.updateMany({ where: { ...due, state: 'arriving' }, data: { state: 'failed', endedAt: now } });
    const { count } = await tx.parcel.updateMany({ where: due, data: { expiresAt: null } });
    if (count > 0) await tx.parcelPart.deleteMany({ where: { tenantId, parcelId: id } });
  });
}
