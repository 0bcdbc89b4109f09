/** A disk that keeps whole transactions or nothing, and may take the app down before or after any of them. */
import { TABLES } from '@ullage/fieldstore';
import type { Store, Table, Tx } from '@ullage/fieldstore';

/** The app is gone; what is on the disk stays. */
export class Crash extends Error {}

export class Disk implements Store {
  readonly #tables = new Map<Table, Map<string, unknown>>(TABLES.map((table) => [table, new Map<string, unknown>()]));
  #turn: Promise<unknown> = Promise.resolve();
  /** Asked at every transaction that writes. */
  crash: () => 'before' | 'after' | undefined = () => undefined;
  read<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
    return this.#inTurn(() => work(this.#txOver([])));
  }
  write<T>(work: (tx: Tx) => Promise<T>): Promise<T> {
    return this.#inTurn(async () => {
      const dies = this.crash();
      const undo: (() => void)[] = [];
      try {
        const result = await work(this.#txOver(undo));
        if (dies === 'before') throw new Crash('before it was on the disk');
        if (dies === 'after') undo.length = 0;
        if (dies === 'after') throw new Crash('after it was on the disk');
        return result;
      } catch (fault) {
        for (const step of undo.toReversed()) step();
        throw fault;
      }
    });
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#turn.then(work);
    this.#turn = mine.catch(() => undefined);
    return mine;
  }

  #txOver(undo: (() => void)[]): Tx {
    const of = (table: Table): Map<string, unknown> => this.#tables.get(table)!;
    const set = (table: Table, key: string, value: unknown): void => {
      const rows = of(table);
      const [had, before] = [rows.has(key), rows.get(key)];
      undo.push(() => (had ? rows.set(key, before) : rows.delete(key)));
      if (value === undefined) rows.delete(key);
      else rows.set(key, value);
    };
    return {
      get: <T>(table: Table, key: string) => Promise.resolve(of(table).get(key) as T | undefined),
      put: (table, key, value) => Promise.resolve(set(table, key, value)),
      drop: (table, key) => Promise.resolve(set(table, key, undefined)),
      clear: (table) => Promise.resolve([...of(table).keys()].forEach((key) => set(table, key, undefined))),
      list: <T>(table: Table, { after = '', limit = Infinity }: { after?: string; limit?: number } = {}) => {
        const keys = [...of(table).keys()].filter((key) => key > after).sort();
        return Promise.resolve(keys.slice(0, limit).map((key) => of(table).get(key) as T));
      },
    };
  }
}
