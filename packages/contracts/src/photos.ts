/** Photos and signatures: named by the SHA-256 of their bytes, sent in parts that may be sent again. */
import * as z from 'zod';

export const PHOTO_MAX_BYTES = 20 * 1024 * 1024;
/** Each part but the last is of this size. */
export const PHOTO_PART_BYTES = 256 * 1024;
/** What a browser shows everywhere, told by the first bytes and never by a name. */
export const PHOTO_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;

export const PhotoHash = z
  .string({ error: 'Photo: take it again.' })
  .regex(/^[0-9a-f]{64}$/, { error: 'Photo: take it again.' })
  .meta({ description: 'SHA-256 of the bytes, in lower-case hexadecimal.' });
/** The photos of one fact, in the order they were taken. The fact may arrive before they do. */
export const photos = z
  .array(PhotoHash)
  .max(12, { error: 'Photos: at most 12 of one thing.' })
  .refine((hashes) => new Set(hashes).size === hashes.length, { error: 'Photos: the same one is there twice.' })
  .optional();

export const NamePhoto = z
  .strictObject({
    bytes: z.int({ error: 'Photo: is empty; take it again.' }).positive({ error: 'Photo: is empty; take it again.' }),
  })
  .meta({ id: 'NamePhoto', description: 'Says how large a photo is, before its first part.' });
export type NamePhoto = z.output<typeof NamePhoto>;
/** Where a part belongs. */
export const PhotoPart = z.object({
  hash: PhotoHash,
  number: z.coerce
    .number()
    .int()
    .nonnegative()
    .max(PHOTO_MAX_BYTES / PHOTO_PART_BYTES),
});
export type PhotoPart = z.output<typeof PhotoPart>;

export const PHOTO_STATES = ['awaited', 'arriving', 'complete'] as const;
export const PhotoView = z
  .object({
    hash: z.string(),
    state: z.enum(PHOTO_STATES),
    width: z.int().nullable(),
    height: z.int().nullable(),
  })
  .meta({ id: 'Photo', description: '`awaited`: still on a phone; `arriving`: partly here.' });
export type PhotoView = z.infer<typeof PhotoView>;

/** What is here of a photo: a sender goes on with the parts that are missing. */
export const PhotoArrival = z
  .object({
    hash: z.string(),
    state: z.enum(PHOTO_STATES),
    partBytes: z.int(),
    missing: z.array(z.int()),
  })
  .meta({ id: 'PhotoArrival' });
export type PhotoArrival = z.infer<typeof PhotoArrival>;
