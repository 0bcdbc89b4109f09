/** A short name for addresses and logs: ASCII words of the name, and a bit of chance so that two firms may share one. */
export function slugOf(name: string, chance: string): string {
  const words = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40)
    .replace(/-+$/, '');
  return words ? `${words}-${chance}` : `firm-${chance}`;
}
