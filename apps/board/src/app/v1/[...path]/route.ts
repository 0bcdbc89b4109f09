import type { NextRequest } from 'next/server';
import { env } from '../../../env.ts';
import { ADDRESS_HEADER, CLAIMED_ADDRESS_HEADERS } from '../../../lib/client-address.ts';

export const dynamic = 'force-dynamic';

/** Headers that belong to one hop and not to the message (RFC 9110 7.6.1), and those fetch sets by itself. */
const HOP: ReadonlySet<string> = new Set([
  'connection',
  'keep-alive',
  'transfer-encoding',
  'upgrade',
  'host',
  'content-length',
  'expect',
  'te',
  'trailer',
  'accept-encoding',
]);

function outgoing(request: NextRequest): Headers {
  const headers = new Headers();
  request.headers.forEach((value, name) => {
    if (!HOP.has(name) && !CLAIMED_ADDRESS_HEADERS.has(name)) headers.set(name, value);
  });
  headers.set('x-forwarded-for', request.headers.get(ADDRESS_HEADER) ?? 'unknown');
  headers.set('x-forwarded-host', request.headers.get('host') ?? '');
  return headers;
}

function answer(upstream: Response): Response {
  const headers = new Headers();
  upstream.headers.forEach((value, name) => {
    if (!HOP.has(name) && name !== 'content-encoding' && name !== 'set-cookie') headers.set(name, value);
  });
  for (const cookie of upstream.headers.getSetCookie()) headers.append('set-cookie', cookie);
  return new Response(upstream.body, { status: upstream.status, headers });
}

const unreachable = (): Response =>
  Response.json(
    { type: 'about:blank', status: 502, title: 'The server is not answering', detail: 'Try again in a moment.' },
    { status: 502, headers: { 'content-type': 'application/problem+json' } },
  );

/** Passes a call to the API and streams both ways; a route handler, because rewrites fix the target at build time. */
async function pass(request: NextRequest, context: RouteContext<'/v1/[...path]'>): Promise<Response> {
  const { path } = await context.params;
  const url = `${env().apiOrigin}/v1/${path.map(encodeURIComponent).join('/')}${request.nextUrl.search}`;
  const bare = request.method === 'GET' || request.method === 'HEAD';
  const init: RequestInit & { duplex: 'half' } = {
    method: request.method,
    headers: outgoing(request),
    body: bare ? null : request.body,
    redirect: 'manual',
    cache: 'no-store',
    signal: request.signal,
    duplex: 'half',
  };
  try {
    return answer(await fetch(url, init));
  } catch (fault) {
    if (request.signal.aborted) return new Response(null, { status: 499 });
    if (fault instanceof TypeError) return unreachable();
    throw fault;
  }
}

export { pass as GET, pass as POST, pass as PUT, pass as PATCH, pass as DELETE };
