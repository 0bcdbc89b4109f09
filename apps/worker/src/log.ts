/** Never bodies or names: an error's message may quote them, so only its kind and the places it passed are written. */
import { traits } from '@ullage/database';
import type { Logger } from 'pino';

export class Log {
  readonly #logger: Logger;
  constructor(logger: Logger) {
    this.#logger = logger;
  }
  say(message: string, more: Record<string, unknown> = {}): void {
    this.#logger.info(more, message);
  }
  /** Something that mends itself or is tried again. */
  trouble(message: string, error: unknown, more: Record<string, unknown> = {}): void {
    this.#logger.warn({ ...more, error: traits(error) }, message);
  }
  /** Something that a person has to see. */
  failed(message: string, more: Record<string, unknown> = {}): void {
    this.#logger.error(more, message);
  }
}
