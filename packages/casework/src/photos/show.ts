import { notFound } from '../pipeline/case.ts';
import type { Viewer } from '../views/viewer.ts';
import type { Shown } from './shapes.ts';

/** A photo that has arrived, as it was taken. @throws Refusal not-found */
export async function photo({ tx, tenantId }: Viewer, hash: string): Promise<Shown> {
  const blob = await tx.blob.findUnique({
    where: { tenantId_hash: { tenantId, hash }, state: 'complete' },
    select: { mediaType: true, chunks: { orderBy: { number: 'asc' }, select: { content: true } } },
  });
  if (!blob || blob.mediaType === null) throw notFound();
  return { mediaType: blob.mediaType, bytes: Buffer.concat(blob.chunks.map((chunk) => chunk.content)) };
}

/** A small one of it. @throws Refusal not-found */
export async function thumbnail({ tx, tenantId }: Viewer, hash: string): Promise<Shown> {
  const blob = await tx.blob.findUnique({
    where: { tenantId_hash: { tenantId, hash }, state: 'complete' },
    select: { thumbnail: true },
  });
  if (!blob?.thumbnail) throw notFound();
  return { mediaType: 'image/webp', bytes: blob.thumbnail };
}
