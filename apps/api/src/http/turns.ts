/**
 * How much of one contractor's work this process does at a time. The rest waits in the order in which it came, so that a
 * contractor who asks for everything at once waits for itself and not for the connections and the time of the others.
 */
import { Injectable } from '@nestjs/common';
import type { CallHandler, ExecutionContext, NestInterceptor } from '@nestjs/common';
import { Refusal } from '@ullage/contracts';
import type { FastifyRequest } from 'fastify';
import { defer, finalize, switchMap } from 'rxjs';
import type { Observable } from 'rxjs';

/** One screen asks for two or three things at once. */
export const AT_ONCE = 3;
/** More than that is a script that does not listen: each who waits holds a connection and its body. */
export const WAITING = 256;

interface Line {
  running: number;
  readonly waiting: (() => void)[];
}

export class Turns {
  readonly #atOnce: number;
  readonly #waiting: number;
  readonly #lines = new Map<string, Line>();
  constructor({ atOnce = AT_ONCE, waiting = WAITING }: { atOnce?: number | undefined; waiting?: number } = {}) {
    this.#atOnce = atOnce;
    this.#waiting = waiting;
  }
  /** Waits for the contractor's turn; gives what ends it, to be called once. @throws Refusal `too-many` */
  async begin(tenantId: string): Promise<() => void> {
    const line = this.#lines.get(tenantId) ?? { running: 0, waiting: [] };
    this.#lines.set(tenantId, line);
    if (line.running >= this.#atOnce) {
      if (line.waiting.length >= this.#waiting) {
        throw new Refusal('too-many', 'Too many requests at once for this contractor: wait for their answers.');
      }
      // Whoever ends hands its place on, so nobody comes in between.
      await new Promise<void>((resolve) => line.waiting.push(resolve));
    } else line.running += 1;
    return () => {
      const next = line.waiting.shift();
      if (next) return next();
      line.running -= 1;
      if (line.running === 0) this.#lines.delete(tenantId);
    };
  }
}

/** What a member asks for is done in its contractor's turn. A stream is only opened in it, and then runs by itself. */
@Injectable()
export class InTurn implements NestInterceptor {
  readonly #turns: Turns;
  constructor(turns: Turns) {
    this.#turns = turns;
  }
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const { actor } = context.switchToHttp().getRequest<FastifyRequest>();
    if (actor === undefined) return next.handle();
    return defer(() => this.#turns.begin(actor.tenantId)).pipe(switchMap((end) => next.handle().pipe(finalize(end))));
  }
}
