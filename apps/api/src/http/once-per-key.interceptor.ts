/**
 * The same request under the same key is carried out once and answered alike, for routes that are no commands (commands
 * keep their keys in the database). Kept in this process for ten minutes: enough for a page that sends twice.
 */
import { createHash } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { CallHandler, ExecutionContext, NestInterceptor } from '@nestjs/common';
import type { Clock } from '@ullage/casework';
import { Refusal } from '@ullage/contracts';
import type { FastifyRequest } from 'fastify';
import { firstValueFrom, from } from 'rxjs';
import type { Observable } from 'rxjs';
import { CLOCK } from '../parts.ts';

const KEPT_MS = 10 * 60_000;
interface Kept {
  readonly content: string;
  readonly answer: Promise<unknown>;
  readonly untilMs: number;
}

@Injectable()
export class OncePerKey implements NestInterceptor {
  readonly #clock: Clock;
  readonly #kept = new Map<string, Kept>();
  constructor(@Inject(CLOCK) clock: Clock) {
    this.#clock = clock;
  }

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const { commandId, actor, method, url, body } = context.switchToHttp().getRequest<FastifyRequest>();
    if (commandId === undefined || actor === undefined) return next.handle();
    const content = createHash('sha256')
      .update(JSON.stringify([method, url, body]))
      .digest('hex');
    const key = `${actor.tenantId}|${actor.userId}|${commandId}`;
    return from(this.#once(key, content, () => firstValueFrom(next.handle())));
  }

  #once(key: string, content: string, work: () => Promise<unknown>): Promise<unknown> {
    const nowMs = this.#clock.date().getTime();
    for (const [old, { untilMs }] of this.#kept) if (untilMs <= nowMs) this.#kept.delete(old);
    const before = this.#kept.get(key);
    if (before?.content === content) return before.answer;
    if (before !== undefined) {
      throw new Refusal('command-changed', 'This id was used before with other content; send it under a new id.');
    }
    const answer = work();
    this.#kept.set(key, { content, answer, untilMs: nowMs + KEPT_MS });
    // What failed may be tried again.
    answer.catch(() => this.#kept.delete(key));
    return answer;
  }
}
