import { subscribe } from 'node:diagnostics_channel';
import type { IncomingMessage } from 'node:http';
import { env } from '../env.ts';
import { ADDRESS_HEADER, clientAddress } from './client-address.ts';
import { trustedProxies } from './trusted-proxies.ts';

/** Writes the caller's address on every request of this process as it arrives (Node: `http.server.request.start`). */
export function watchAddresses(): void {
  const trusts = trustedProxies(env().trustProxy);
  subscribe('http.server.request.start', (message) => {
    const { request } = message as { request: IncomingMessage };
    request.headers[ADDRESS_HEADER] = clientAddress(request.headers, request.socket.remoteAddress, trusts);
  });
}
