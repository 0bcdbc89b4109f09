/**
 * Runs one piece of work at a time, again and again: every so often, and at once when it is woken. Woken while it
 * works, it works once more.
 */
export class Round {
  readonly #work: () => Promise<void>;
  readonly #everyMs: number;
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> | undefined;
  #again = false;
  #stopped = false;

  /** `work` must not throw: it says itself what went wrong. */
  constructor(work: () => Promise<void>, everyMs: number) {
    this.#work = work;
    this.#everyMs = everyMs;
  }
  start(): void {
    this.#timer = setInterval(() => this.wake(), this.#everyMs);
    this.wake();
  }
  wake(): void {
    if (this.#stopped) return;
    if (this.#running) {
      this.#again = true;
      return;
    }
    this.#again = false;
    this.#running = this.#work().finally(() => {
      this.#running = undefined;
      if (this.#again) this.wake();
    });
  }
  /** Starts nothing more, and waits for what runs. */
  async stop(): Promise<void> {
    this.#stopped = true;
    clearInterval(this.#timer);
    await this.#running;
  }
}
