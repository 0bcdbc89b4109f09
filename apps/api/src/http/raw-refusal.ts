/** What is so broken that it never becomes a request is answered on the bare connection. */
import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import { problemOfStatus } from './problem.ts';

export function refuseRaw(error: { readonly code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) return;
  const status = error.code === 'HPE_HEADER_OVERFLOW' ? 431 : 400;
  const body = JSON.stringify(problemOfStatus(status));
  const head = [
    `HTTP/1.1 ${status} ${STATUS_CODES[status] ?? ''}`,
    'Content-Type: application/problem+json; charset=utf-8',
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Connection: close',
  ];
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`);
}
