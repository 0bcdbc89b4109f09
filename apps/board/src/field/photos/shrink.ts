/** Enough to read a nameplate by, and a tenth of what a phone's camera makes. */
const LONGEST_EDGE = 2048;
const QUALITY = 0.86;
const SENT_AS_THEY_ARE = ['image/jpeg', 'image/png', 'image/webp'];

/**
 * The picture upright, at most 2,048 pixels long, as JPEG. Redrawing drops what the camera wrote into it, its place
 * among others. One that this browser cannot draw is kept as it is where the server can; undefined for no picture.
 */
export async function shrink(file: Blob): Promise<Blob | undefined> {
  const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => undefined);
  if (!bitmap) return SENT_AS_THEY_ARE.includes(file.type) ? file : undefined;
  const scale = Math.min(1, LONGEST_EDGE / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  return (await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY))) ?? undefined;
}

export async function hashOf(blob: Blob): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', await blob.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
