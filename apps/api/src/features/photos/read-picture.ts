import type { Picture } from '@ullage/casework';
import sharp from 'sharp';

/** More than any phone takes; a small file can claim to be a huge picture. */
const PIXELS_MAX = 120_000_000;
const SMALL = { width: 320, height: 320, fit: 'inside', withoutEnlargement: true } as const;
const SECONDS_MAX = 10;

/** Decodes a picture, upright and without what the camera wrote into it; undefined when it is none. */
export async function readPicture(bytes: Uint8Array): Promise<Picture | undefined> {
  try {
    const picture = sharp(bytes, { limitInputPixels: PIXELS_MAX, failOn: 'error' }).timeout({ seconds: SECONDS_MAX });
    const { autoOrient } = await picture.metadata();
    const thumbnail = await picture.autoOrient().resize(SMALL).webp({ quality: 72 }).toBuffer();
    return { width: autoOrient.width, height: autoOrient.height, thumbnail };
  } catch {
    return undefined;
  }
}
