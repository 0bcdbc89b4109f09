/** Photos as they arrive: in any order, each part as often as it likes, and whole only when their hash says so. */
import { createHash } from 'node:crypto';
import { PHOTO_MAX_BYTES, PHOTO_PART_BYTES, Refusal } from '@ullage/contracts';
import type { PhotoArrival } from '@ullage/contracts';
import type { Tx } from '@ullage/database';
import type { Actor, World } from '../office.ts';
import { notFound, toDate, Work } from '../pipeline/case.ts';
import { withRetry } from '../pipeline/retry.ts';
import { writeAudit, writeFeed } from '../pipeline/settle.ts';
import { photoType } from './kind.ts';
import type { Part, ReadPicture } from './shapes.ts';

const partsOf = (bytes: number): number => Math.ceil(bytes / PHOTO_PART_BYTES);

/**
 * Says how large a photo is. Said again it answers what is missing still.
 * @throws Refusal `too-large` above 20 MB, `not-possible` when another size was said before
 */
export function namePhoto(world: World, actor: Actor, named: { hash: string; bytes: number }): Promise<PhotoArrival> {
  const { hash, bytes } = named;
  if (bytes > PHOTO_MAX_BYTES) {
    throw new Refusal('too-large', 'Photo: larger than 20 MB; take it at a lower resolution.');
  }
  return withRetry(() =>
    world.database.inTenant(actor.tenantId, async (tx) => {
      const { tenantId } = actor;
      const row = { tenantId, hash, bytes: null, state: 'awaited', namedAt: toDate(world.now()) };
      await tx.blob.createMany({ data: row, skipDuplicates: true });
      await tx.blob.updateMany({ where: { tenantId, hash, state: 'awaited' }, data: { bytes, state: 'arriving' } });
      const blob = await tx.blob.findUniqueOrThrow({ where: { tenantId_hash: { tenantId, hash } } });
      if (blob.bytes !== bytes) throw new Refusal('not-possible', 'Photo: was named with another size; take it again.');
      return arrivalOf(tx, blob);
    }),
  );
}

/**
 * Takes one part. With the last one the photo is whole: its hash is checked, then it stands for ever.
 * @throws Refusal `not-found` when it was not named, `not-valid` for a part of the wrong size, `not-possible` when the
 * parts together are not what was named or no picture
 */
export async function receivePart(
  world: World,
  actor: Actor,
  given: { part: Part; read: ReadPicture },
): Promise<PhotoArrival> {
  const { hash, number, content } = given.part;
  const { tenantId } = actor;
  const arrival = await withRetry(() =>
    world.database.inTenant(tenantId, async (tx) => {
      // Many parts at once, but none while somebody makes the photo complete.
      await tx.$queryRaw`SELECT FROM blob WHERE tenant_id = ${tenantId}::uuid AND hash = ${hash} FOR SHARE`;
      const blob = await tx.blob.findUnique({ where: { tenantId_hash: { tenantId, hash } } });
      if (!blob || blob.bytes === null) throw notFound();
      const due = Math.min(PHOTO_PART_BYTES, blob.bytes - number * PHOTO_PART_BYTES);
      if (due !== content.length) throw new Refusal('not-valid', `Part ${number}: has the wrong size; send it again.`);
      if (blob.state === 'arriving') {
        await tx.blobChunk.createMany({
          data: { tenantId, hash, number, content: new Uint8Array(content) },
          skipDuplicates: true,
        });
      }
      return arrivalOf(tx, blob);
    }),
  );
  if (arrival.state !== 'arriving' || arrival.missing.length > 0) return arrival;
  return complete(world, actor, { hash, read: given.read });
}

async function arrivalOf(
  tx: Tx,
  blob: { tenantId: string; hash: string; bytes: number | null; state: string },
): Promise<PhotoArrival> {
  const { tenantId, hash } = blob;
  const state = blob.state as PhotoArrival['state'];
  if (state === 'complete') return { hash, state, partBytes: PHOTO_PART_BYTES, missing: [] };
  const here = await tx.blobChunk.findMany({ where: { tenantId, hash }, select: { number: true } });
  const numbers = new Set(here.map((row) => row.number));
  const all = Array.from({ length: partsOf(blob.bytes ?? 0) }, (_, number) => number);
  return { hash, state, partBytes: PHOTO_PART_BYTES, missing: all.filter((number) => !numbers.has(number)) };
}

/** Decoding takes its time and holds no lock; what is stored then is what was read, as parts are never changed. */
async function complete(
  world: World,
  actor: Actor,
  { hash, read }: { hash: string; read: ReadPicture },
): Promise<PhotoArrival> {
  const { tenantId } = actor;
  const bytes = await world.database.inTenant(tenantId, (tx) => contentOf(tx, tenantId, hash));
  const mediaType = photoType(bytes);
  const isWhole = createHash('sha256').update(bytes).digest('hex') === hash;
  const picture = isWhole && mediaType !== undefined ? await read(bytes) : undefined;
  if (!picture) {
    await startOver(world, actor, hash);
    throw new Refusal(
      'not-possible',
      isWhole ? 'Photo: is no JPEG, PNG or WebP picture; take it again.' : 'Photo: arrived damaged; send it again.',
    );
  }
  const arrival = await withRetry(() =>
    world.database.inTenant(tenantId, async (tx) => {
      const recordedAt = world.now();
      const { width, height } = picture;
      const { count } = await tx.blob.updateMany({
        where: { tenantId, hash, state: 'arriving' },
        data: {
          state: 'complete',
          mediaType: mediaType ?? null,
          width,
          height,
          thumbnail: new Uint8Array(picture.thumbnail),
          completeAt: toDate(recordedAt),
        },
      });
      if (count > 0) await tell(new Work({ tx, world, tenantId, recordedAt }), actor, hash);
      // Somebody else may have been first, or have asked for all of it again.
      return arrivalOf(tx, await tx.blob.findUniqueOrThrow({ where: { tenantId_hash: { tenantId, hash } } }));
    }),
  );
  await world.database.notify('ullage_feed', tenantId);
  return arrival;
}

/** Whoever has a page with this photo open sees it come. */
async function tell(work: Work, actor: Actor, hash: string): Promise<void> {
  const named = await work.tx.factRef.findMany({
    where: { tenantId: work.tenantId, blobHash: hash },
    select: { fact: { select: { id: true, visitId: true, circuitId: true } } },
  });
  for (const { fact } of named) {
    work.changed('fact', fact.id);
    if (fact.visitId !== null) work.changed('visit', fact.visitId);
    if (fact.circuitId !== null) work.changed('circuit', fact.circuitId);
  }
  const { userId, address = null, key } = actor;
  const more = key === undefined ? {} : { key: { ...key } };
  await writeAudit(work, { action: 'photo-arrived', userId, commandId: null, address }, more);
  await writeFeed(work);
}

async function contentOf(tx: Tx, tenantId: string, hash: string): Promise<Uint8Array> {
  const parts = await tx.blobChunk.findMany({ where: { tenantId, hash }, orderBy: { number: 'asc' } });
  return Buffer.concat(parts.map((part) => part.content));
}

/** What arrived is not the photo: all of it is asked for again. */
async function startOver(world: World, { tenantId }: Actor, hash: string): Promise<void> {
  await withRetry(() =>
    world.database.inTenant(tenantId, async (tx) => {
      const { count } = await tx.blob.updateMany({
        where: { tenantId, hash, state: 'arriving' },
        data: { state: 'awaited', bytes: null },
      });
      if (count > 0) await tx.blobChunk.deleteMany({ where: { tenantId, hash } });
    }),
  );
}
