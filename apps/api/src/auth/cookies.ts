/** The value of a cookie as it stands in the header, or undefined when there is none of that name. */
export function cookieOf(cookies: string, name: string): string | undefined {
  for (const part of cookies.split(';')) {
    const at = part.indexOf('=');
    if (at > 0 && part.slice(0, at).trim() === name) return part.slice(at + 1).trim();
  }
  return undefined;
}
