import type { PHOTO_TYPES } from '@ullage/contracts';

export type PhotoType = (typeof PHOTO_TYPES)[number];
const text = (bytes: Uint8Array, from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * What the first bytes say a photo is, whatever it was called.
 * Signatures: JPEG by ITU-T T.81 B.1.1.3 (SOI and a marker), PNG by W3C PNG 5.2, WebP by RFC 9649 2.4.
 */
export function photoType(bytes: Uint8Array): PhotoType | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return 'image/jpeg';
  if (PNG.every((byte, index) => bytes[index] === byte)) return 'image/png';
  if (text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 12) === 'WEBP') return 'image/webp';
  return undefined;
}
