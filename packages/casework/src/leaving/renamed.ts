import type { CommandAnswer } from '@ullage/contracts';

const UUID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
type Records = readonly { readonly kind: string; readonly id: string }[];

/**
 * Ids that are others here than they were there. A command of today makes the same ids wherever it is told; one from before
 * they followed from it does not, and what it made is known by its place in the answer, so that later lines find it.
 */
export class Renamed {
  readonly #ids = new Map<string, string>();

  learn(there: unknown, here: Pick<CommandAnswer, 'records'>): void {
    const then = (there as { records?: Records } | null)?.records ?? [];
    if (then.length !== here.records.length) return;
    for (const [place, { kind, id }] of then.entries()) {
      const now = here.records[place];
      if (now?.kind === kind && now.id !== id) this.#ids.set(id, now.id);
    }
  }

  /** The same with the ids of here. */
  here<T>(value: T): T {
    if (this.#ids.size === 0) return value;
    return JSON.parse(JSON.stringify(value).replaceAll(UUID, (id) => this.#ids.get(id) ?? id)) as T;
  }
}
