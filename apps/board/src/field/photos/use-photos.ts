'use client';
import { useSyncExternalStore } from 'react';
import { useField } from '../field-context.tsx';
import type { KeptPhoto } from './album.ts';

const NONE: ReadonlyMap<string, KeptPhoto> = new Map();
/** The photos on this phone, by hash. */
export function usePhotos(): ReadonlyMap<string, KeptPhoto> {
  const { album } = useField();
  return useSyncExternalStore(album.subscribe, album.photos, () => NONE);
}
