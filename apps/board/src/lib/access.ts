/** Cookies by which the API knows a signed-in person; the second name over https. */
export const SESSION_COOKIES = ['ullage.session_token', '__Secure-ullage.session_token'] as const;

const OPEN = ['/sign-in', '/sign-up', '/join', '/forgot', '/reset', '/field'] as const;

/** Whether a path may be opened without a session. `/field` keeps its own door: it must open without a signal. */
export const isOpen = (path: string): boolean => OPEN.some((open) => path === open || path.startsWith(`${open}/`));

/** A path of our own to go on to, or `/`. Anything that could lead to another origin is dropped. */
export function safeNext(wanted: string | undefined): string {
  if (!wanted || !wanted.startsWith('/') || /[\\\s]/.test(wanted)) return '/';
  const base = 'http://here.invalid';
  const url = URL.parse(wanted, base);
  if (!url || url.origin !== base) return '/';
  return url.pathname + url.search + url.hash;
}
