'use client';
import type { MeView } from '@ullage/contracts';
import { createContext, useContext } from 'react';
import type { Keep } from './keep.ts';
import type { Album } from './photos/album.ts';
import type { FieldPort, Sync } from './port.ts';

/** What every screen of the app stands on. */
export interface FieldScreen {
  readonly port: FieldPort;
  readonly keep: Keep;
  readonly album: Album;
  readonly me: MeView;
  readonly sync: Sync;
  /** The zone of the clock times shown: the site's inside a visit, else the contractor's. */
  readonly timeZone: string;
  readonly newId: () => string;
  readonly now: () => Date;
}

const Context = createContext<FieldScreen | undefined>(undefined);
export const FieldProvider = Context.Provider;

/** @throws Error outside the app */
export function useField(): FieldScreen {
  const screen = useContext(Context);
  if (!screen) throw new Error('only inside the field app');
  return screen;
}
