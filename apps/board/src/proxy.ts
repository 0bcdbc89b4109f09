import { NextResponse, type NextRequest } from 'next/server';
import { env } from './env.ts';
import { isOpen, SESSION_COOKIES } from './lib/access.ts';

function policy(nonce: string): string {
  const evaluate = env().development ? " 'unsafe-eval'" : '';
  return [
    `default-src 'self'`,
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic' 'wasm-unsafe-eval'${evaluate}`,
    `style-src 'self' 'nonce-${nonce}'`,
    `style-src-attr 'unsafe-inline'`,
    `img-src 'self' blob: data:`,
    `font-src 'self'`,
    `connect-src 'self'`,
    `worker-src 'self' blob:`,
    `media-src 'self' blob:`,
    `manifest-src 'self'`,
    `object-src 'none'`,
    `base-uri 'none'`,
    `form-action 'self'`,
    `frame-ancestors 'none'`,
  ].join('; ');
}

/** Sends a visitor without a session to the door with a real 307; the page still asks the API who they are. */
function toSignIn(request: NextRequest): NextResponse {
  const to = request.nextUrl.clone();
  const wanted = request.nextUrl.pathname + request.nextUrl.search;
  to.pathname = '/sign-in';
  to.search = wanted === '/' ? '' : `?next=${encodeURIComponent(wanted)}`;
  return NextResponse.redirect(to, 307);
}

export function proxy(request: NextRequest): NextResponse {
  const path = request.nextUrl.pathname;
  if (!isOpen(path) && !SESSION_COOKIES.some((name) => request.cookies.has(name))) return toSignIn(request);
  const nonce = btoa(String.fromCharCode(...crypto.getRandomValues(new Uint8Array(16))));
  const headers = new Headers(request.headers);
  headers.set('x-nonce', nonce);
  headers.set('content-security-policy', policy(nonce));
  headers.set('x-path', path + request.nextUrl.search);
  const response = NextResponse.next({ request: { headers } });
  response.headers.set('content-security-policy', policy(nonce));
  return response;
}

// /v1 stays outside: its headers go to the API as they are, and uploads must not be buffered here.
export const config = {
  matcher: [
    {
      source: '/((?!v1/|_next/|wasm/|icons/|sw\\.js$|field\\.webmanifest$|favicon\\.ico$|icon\\.svg$).*)',
      missing: [{ type: 'header', key: 'next-router-prefetch' }],
    },
  ],
};
