/** Never bodies or names: an error's message may quote them, so only its kind and the places it passed are written. */
import { sqlState } from '@ullage/database';
import type { Logger } from 'pino';

/** What may be told of an error. */
function traits(error: unknown): Record<string, unknown> {
  if (!(error instanceof Error)) return { kind: typeof error };
  const code = 'code' in error && typeof error.code === 'string' ? error.code : undefined;
  const places = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return { kind: error.name, code, sqlState: sqlState(error), at: places.slice(0, 12).map((line) => line.trim()) };
}

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
