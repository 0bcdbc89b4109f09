/** Server-sent events (WHATWG HTML, section 9.2): each open stream of this process, written to the socket directly. */
import type { FastifyReply } from 'fastify';
import { cursorText } from './cursor.ts';
import type { Cursor } from './cursor.ts';

export const HEARTBEAT_MS = 15_000;
export interface StreamOptions {
  /** Where the contractor's feed stands as the stream opens. */
  readonly from: Cursor;
  /** The last id the browser saw before it lost the stream. */
  readonly seen: string | undefined;
  /** Asked at every heartbeat: a person who was removed is cut off. */
  stillAllowed(): Promise<boolean>;
  /** Starts telling of changes; what it returns ends that. */
  subscribe(tell: (cursor: Cursor) => void): () => void;
}

export class Streams {
  readonly #ends = new Set<() => void>();
  readonly #heartbeatMs: number;
  #closed = false;
  constructor(heartbeatMs: number = HEARTBEAT_MS) {
    this.#heartbeatMs = heartbeatMs;
  }
  get open(): number {
    return this.#ends.size;
  }

  start(reply: FastifyReply, options: StreamOptions): void {
    const { raw } = reply.hijack();
    for (const [name, value] of Object.entries(reply.getHeaders())) if (value !== undefined) raw.setHeader(name, value);
    raw.writeHead(200, {
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-cache, no-transform',
      'x-accel-buffering': 'no',
    });
    const change = (cursor: Cursor): boolean => raw.write(`id: ${cursorText(cursor)}\ndata: {}\n\n`);
    raw.write('retry: 2000\n\n');
    // Always with the real id: a made-up one would be handed back to us when the browser comes again.
    if (options.seen === undefined || options.seen === cursorText(options.from)) {
      raw.write(`event: hello\nid: ${cursorText(options.from)}\ndata: {}\n\n`);
    } else change(options.from);
    const unsubscribe = options.subscribe(change);
    const heartbeat = setInterval(() => void beat(), this.#heartbeatMs);
    const end = (): void => {
      clearInterval(heartbeat);
      unsubscribe();
      this.#ends.delete(end);
      raw.end();
    };
    const beat = async (): Promise<void> => {
      const allowed = await options.stillAllowed().catch(() => true);
      if (!allowed) end();
      else if (!raw.writableEnded) raw.write(': still here\n\n');
    };
    this.#ends.add(end);
    raw.on('close', end);
    if (this.#closed) end();
  }

  /** Ends all streams: the server could not close while one is open. */
  endAll(): void {
    this.#closed = true;
    for (const end of this.#ends) end();
  }
}
