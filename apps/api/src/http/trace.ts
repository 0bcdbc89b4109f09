import type { Tracing } from '@ullage/telemetry';
import type { FastifyInstance } from 'fastify';

const TRACEPARENT = 'traceparent';

/**
 * A span for each request, named by its route pattern (OpenTelemetry's semantic conventions for HTTP). It carries ids
 * and nothing that anybody typed. Its parent is whoever asked, where they trace as well.
 */
export function trace(fastify: FastifyInstance, tracing: Tracing): void {
  fastify.addHook('onRequest', async (request) => {
    const said = request.headers[TRACEPARENT];
    const parent = typeof said === 'string' ? said : undefined;
    request.span = tracing.begin({ name: request.method, kind: 'server', parent });
  });
  fastify.addHook('onResponse', async (request, reply) => {
    const route = request.routeOptions.url;
    request.span?.end({
      name: route === undefined ? request.method : `${request.method} ${route}`,
      failed: reply.statusCode >= 500,
      attributes: {
        'http.request.method': request.method,
        'http.route': route,
        'http.response.status_code': reply.statusCode,
        'ullage.request_id': request.id,
        'ullage.tenant_id': request.actor?.tenantId,
        'ullage.command_id': request.commandId,
      },
    });
  });
}
