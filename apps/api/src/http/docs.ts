/** The OpenAPI document and a page to read it on. The page brings its own script: nothing comes from elsewhere. */
import scalar from '@scalar/fastify-api-reference';
import type { FastifyInstance } from 'fastify';

const PAGE_POLICY =
  "default-src 'self'; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; frame-ancestors 'none'";

export async function serveDocs(fastify: FastifyInstance, document: () => unknown): Promise<void> {
  let text: string | undefined;
  fastify.get('/v1/openapi.json', (_request, reply) => {
    text ??= JSON.stringify(document());
    return reply.header('content-type', 'application/json; charset=utf-8').send(text);
  });
  await fastify.register(scalar, {
    routePrefix: '/v1/docs',
    configuration: { url: '/v1/openapi.json', withDefaultFonts: false, hideClientButton: true, telemetry: false },
    hooks: {
      onRequest: (_request, reply, done) => {
        void reply.header('content-security-policy', PAGE_POLICY);
        done();
      },
    },
  });
}
