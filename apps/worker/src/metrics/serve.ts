import { createServer } from 'node:http';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { once } from 'node:events';
import type { Metrics } from './metrics.ts';

/** Answers `GET /metrics` on loopback. It does not keep the process, which ends when the work does. */
export async function serveMetrics({ registry }: Metrics, port: number): Promise<Server> {
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    // What a proxy hands on was not asked on this machine.
    const isAsked = request.method === 'GET' && request.url === '/metrics';
    if (!isAsked || request.headers['x-forwarded-for'] !== undefined) return void response.writeHead(404).end();
    const text = await registry.metrics();
    response.writeHead(200, { 'content-type': registry.contentType }).end(text);
  };
  const server = createServer((request, response) => {
    answer(request, response).catch(() => response.writeHead(500).end());
  });
  server.listen(port, '127.0.0.1');
  await once(server, 'listening');
  return server.unref();
}
