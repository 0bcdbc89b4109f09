/** The part of `Storage` that is used; a `Map` stands in for it in tests. */
export interface TextStore {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/**
 * What a person has on this phone, each record under a key of its own. Writing is synchronous: when an input event has
 * been handled, the value is down, even if the page closes in the same task.
 */
export interface Keep {
  read(key: string): unknown;
  /** False when the phone refuses: storage full or switched off. */
  write(key: string, value: unknown): boolean;
  drop(key: string): void;
  /** Keys that start so, in text order. */
  keys(prefix: string): readonly string[];
}

/** @param prefix keeps one person's notes from another's on a shared phone */
export function makeKeep(store: TextStore, prefix: string): Keep {
  return {
    read(key) {
      try {
        const text = store.getItem(prefix + key);
        return text === null ? undefined : (JSON.parse(text) as unknown);
      } catch {
        return undefined;
      }
    },
    write(key, value) {
      try {
        store.setItem(prefix + key, JSON.stringify(value));
        return true;
      } catch {
        return false;
      }
    },
    drop(key) {
      try {
        store.removeItem(prefix + key);
      } catch {
        // A phone that refuses storage holds nothing to drop.
      }
    },
    keys(wanted) {
      const found: string[] = [];
      for (let i = 0; i < store.length; i++) {
        const key = store.key(i);
        if (key?.startsWith(prefix + wanted)) found.push(key.slice(prefix.length));
      }
      return found.sort();
    },
  };
}
