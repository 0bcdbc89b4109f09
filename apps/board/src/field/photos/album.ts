/** The photos of one person on this phone: kept here until the server has them whole. */
import type { Problem } from '@ullage/contracts';

export interface KeptPhoto {
  readonly hash: string;
  /** Of the bytes on this phone. */
  readonly url: string;
  readonly state: 'waiting' | 'sending' | 'refused';
  readonly problem?: Problem | undefined;
}
export type Added =
  | { readonly ok: true; readonly hash: string }
  | { readonly ok: false; readonly why: 'not-a-picture' | 'full' | 'not-secure' };

export interface Album {
  /** Keeps a picture before it answers; sending goes on by itself. */
  add(file: Blob): Promise<Added>;
  /** What is on this phone, by hash. A new map after every change. */
  readonly photos: () => ReadonlyMap<string, KeptPhoto>;
  forget(hash: string): void;
  retry(): void;
  readonly subscribe: (onChange: () => void) => () => void;
}

const NONE: ReadonlyMap<string, KeptPhoto> = new Map();

/**
 * An album that is fetched when it is first needed: its store is a third of the app, and most visits begin without a
 * photo.
 */
export function makeAlbum(load: () => Promise<Album>): Album {
  const listeners = new Set<() => void>();
  let loaded: Album | undefined;
  let loading: Promise<Album> | undefined;
  const open = (): Promise<Album> =>
    (loading ??= load().then((album) => {
      loaded = album;
      album.subscribe(() => listeners.forEach((listener) => listener()));
      listeners.forEach((listener) => listener());
      return album;
    }));
  const later = (work: (album: Album) => void): void => {
    // Without a signal the code may not be here yet; the next try fetches it.
    open().then(work, () => {
      loading = undefined;
    });
  };
  return {
    add: async (file) => (await open()).add(file),
    photos: () => loaded?.photos() ?? NONE,
    forget: (hash) => later((album) => album.forget(hash)),
    retry: () => later((album) => album.retry()),
    subscribe: (onChange) => {
      listeners.add(onChange);
      return () => listeners.delete(onChange);
    },
  };
}
