/** One row over HTTP: the compiled api's `GET /v1/me` against bare Fastify and pg that read the same session, member and row. */
import { LANES } from './ground.ts';
import type { Ground } from './ground.ts';
import { ask, freePort, hangUp, shared, signUp, started, startApi } from './http.ts';
import { contest } from './rounds.ts';
import type { Result } from './rounds.ts';

export async function oneRow({ urls }: Ground): Promise<Result> {
  const barePort = await freePort();
  const { port: apiPort, child } = await startApi(urls);
  const children = [child];
  try {
    children.push(await started('tests/bench/bare-server.ts', { ...shared(urls), PORT: String(barePort) }));
    const { cookie } = await signUp(apiPort);
    const me = (port: number) => async (): Promise<void> => {
      const { status, text } = await ask(port, '/v1/me', { cookie });
      if (status !== 200 || !text.includes('Wanda Frost')) throw new Error(`GET /v1/me answered ${status}: ${text}`);
    };
    const limits =
      'both sides make the same two round trips, so it is the api’s own work for a request: Nest, guard, limits, the check of the answer’s shape (not profiled further). Client, servers and PostgreSQL share the processors.';
    const work = { ours: me(apiPort), bare: me(barePort), lanes: LANES, roundMs: 1500 };
    return await contest({ name: 'One row over HTTP', aim: 0.6, ...work, limits });
  } finally {
    for (const child of children) child.kill('SIGTERM');
    hangUp();
  }
}
