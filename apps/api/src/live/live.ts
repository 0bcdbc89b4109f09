/** Opens a contractor's stream of "something changed". */
import type { Actor, Clock } from '@ullage/casework';
import type { Database } from '@ullage/database';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Auth } from '../auth/create-auth.ts';
import { holderOf, keyIn } from '../auth/api-keys.ts';
import { memberNow } from '../auth/membership.ts';
import { readCursor } from './cursor.ts';
import type { FeedWatch } from './feed-watch.ts';
import type { Streams } from './streams.ts';

export interface LiveParts {
  readonly database: Database;
  readonly auth: Auth;
  readonly clock: Clock;
  readonly watch: FeedWatch;
  readonly streams: Streams;
}
export class Live {
  readonly #parts: LiveParts;
  constructor(parts: LiveParts) {
    this.#parts = parts;
  }

  async open({ tenantId }: Actor, reply: FastifyReply): Promise<void> {
    const { database, watch, streams } = this.#parts;
    const from = await readCursor(database, tenantId);
    const seen = reply.request.headers['last-event-id'];
    streams.start(reply, {
      from,
      seen: typeof seen === 'string' ? seen : undefined,
      subscribe: (tell) => watch.subscribe(tenantId, from, tell),
      stillAllowed: async () => (await this.#tenantNow(reply.request)) === tenantId,
    });
  }

  /** For whom whoever opened the stream may act now: by the same session or key as then. */
  async #tenantNow({ headers, session }: FastifyRequest): Promise<string | undefined> {
    const { auth, clock } = this.#parts;
    const key = keyIn(headers);
    if (key !== undefined) return (await holderOf(auth.pool, key, clock.date()))?.tenantId;
    return session && (await memberNow(auth, session.token, clock.date()))?.tenantId;
  }

  start(): void {
    this.#parts.watch.start();
  }
  /** Before the server closes: it would wait for the open streams. */
  async stop(): Promise<void> {
    this.#parts.streams.endAll();
    await this.#parts.watch.stop();
  }
}
