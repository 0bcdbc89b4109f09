import { createHash } from 'node:crypto';

const KEPT = 1000;
const names = new Map<string, string>();

/** Prepared-statement name of a text, so that the server plans each text once per connection; none once too many are known. */
export function nameOf(text: string): string | undefined {
  const known = names.get(text);
  if (known !== undefined || names.size >= KEPT) return known;
  const name = createHash('sha1').update(text).digest('base64url');
  names.set(text, name);
  return name;
}
