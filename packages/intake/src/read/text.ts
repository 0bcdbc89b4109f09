/** Bytes to text, or why they are none. */
const startsWith = (bytes: Uint8Array, ...first: readonly number[]): boolean =>
  first.every((byte, index) => bytes[index] === byte);

export type DecodedText = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };

/** UTF-8 with or without a byte order mark. A replacement character in a customer's name would stay in the books for ever. */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0xfe, 0xff))
    return { ok: false, why: 'The file is UTF-16 text: save it as “CSV UTF-8” and choose it again.' };
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    if (text.includes('\0')) return { ok: false, why: 'This is no table: choose a CSV or XLSX file.' };
    return { ok: true, text };
  } catch {
    return { ok: false, why: 'The file is not UTF-8 text: save it as “CSV UTF-8” and choose it again.' };
  }
}
