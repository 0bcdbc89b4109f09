/** The album over this phone's own store. Fetched by itself: see album.ts. */
import Dexie, { type EntityTable } from 'dexie';
import type { Problem } from '@ullage/contracts';
import { call } from '../../lib/client.ts';
import { isPassing } from '../api-port.ts';
import type { Added, Album, KeptPhoto } from './album.ts';
import { sendPhoto } from './send-photo.ts';
import { hashOf, shrink } from './shrink.ts';

interface Row {
  /** Owner and hash: another person on the same phone has an album of their own. */
  readonly key: string;
  readonly owner: string;
  readonly hash: string;
  readonly blob: Blob;
  readonly at: number;
  readonly problem?: Problem | undefined;
}
type Store = Dexie & { photo: EntityTable<Row, 'key'> };
const WAITS = [2_000, 5_000, 15_000, 30_000];

class PhoneAlbum implements Album {
  readonly #owner: string;
  readonly #store: Store;
  readonly #listeners = new Set<() => void>();
  readonly #urls = new Map<string, string>();
  #shown: ReadonlyMap<string, KeptPhoto> = new Map();
  #sending: string | undefined;
  #isDraining = false;
  /** Asked for while it was draining. */
  #again = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #tries = 0;

  constructor(owner: string, store: Store) {
    this.#owner = owner;
    this.#store = store;
  }

  photos = (): ReadonlyMap<string, KeptPhoto> => this.#shown;
  subscribe = (onChange: () => void): (() => void) => {
    this.#listeners.add(onChange);
    return () => this.#listeners.delete(onChange);
  };

  async add(file: Blob): Promise<Added> {
    const blob = await shrink(file);
    if (!blob) return { ok: false, why: 'not-a-picture' };
    const hash = await hashOf(blob);
    const row = { key: this.#keyOf(hash), owner: this.#owner, hash, blob, at: Date.now() };
    const kept = await this.#store.photo.put(row).then(
      () => true,
      () => false,
    );
    if (!kept) return { ok: false, why: 'full' };
    await this.show();
    this.retry();
    return { ok: true, hash };
  }

  forget(hash: string): void {
    void this.#store.photo.delete(this.#keyOf(hash)).then(() => this.show());
  }

  retry(): void {
    clearTimeout(this.#timer);
    this.#again = true;
    if (this.#isDraining) return;
    this.#isDraining = true;
    // One tab at a time: two would send every part twice.
    void navigator.locks
      .request('ullage-field-photos', async () => {
        while (this.#again) {
          this.#again = false;
          await this.#drain();
        }
      })
      .finally(() => {
        this.#isDraining = false;
      });
  }

  async show(): Promise<void> {
    const rows = await this.#rows();
    const here = new Set(rows.map(({ hash }) => hash));
    for (const [hash, url] of this.#urls) {
      if (here.has(hash)) continue;
      URL.revokeObjectURL(url);
      this.#urls.delete(hash);
    }
    this.#shown = new Map(rows.map((row) => [row.hash, this.#keptOf(row)]));
    for (const listener of this.#listeners) listener();
  }

  #keptOf({ hash, blob, problem }: Row): KeptPhoto {
    const url = this.#urls.get(hash) ?? URL.createObjectURL(blob);
    this.#urls.set(hash, url);
    if (problem) return { hash, url, state: 'refused', problem };
    return { hash, url, state: this.#sending === hash ? 'sending' : 'waiting' };
  }

  #keyOf = (hash: string): string => `${this.#owner}|${hash}`;
  #rows = (): Promise<Row[]> => this.#store.photo.where('owner').equals(this.#owner).sortBy('at');

  /** Sends all that waits. A refused one stays, with its reason, and blocks none after it. */
  async #drain(): Promise<void> {
    const passed = new Set<string>();
    for (;;) {
      const next = (await this.#rows()).find(({ hash, problem }) => !problem && !passed.has(hash));
      if (!next) break;
      passed.add(next.hash);
      this.#sending = next.hash;
      await this.show();
      const answer = await sendPhoto(next, call);
      this.#sending = undefined;
      if (answer.ok && answer.data.state === 'complete') await this.#store.photo.delete(next.key);
      else if (!answer.ok && (isPassing(answer.problem.status) || answer.problem.status === 401)) return this.#later();
      else if (!answer.ok) {
        const { status, type, title, detail, errors } = answer.problem;
        await this.#store.photo.update(next.key, { problem: { status, type, title, detail, errors: [...errors] } });
      }
      this.#tries = 0;
      await this.show();
    }
  }

  async #later(): Promise<void> {
    const wait = WAITS[Math.min(this.#tries++, WAITS.length - 1)];
    this.#timer = setTimeout(() => this.retry(), wait);
    await this.show();
  }
}

/** @param owner one person of one contractor on this phone */
export async function openAlbum(owner: string): Promise<Album> {
  const store = new Dexie('ullage-photos') as Store;
  store.version(1).stores({ photo: 'key, owner' });
  const album = new PhoneAlbum(owner, store);
  await album.show();
  album.retry();
  return album;
}
