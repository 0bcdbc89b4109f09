'use client';
import type { Problem } from '@ullage/contracts';
import { useCallback, useEffect, useRef, useState } from 'react';
import { coalesce } from '../lib/coalesce.ts';
import type { FieldPort, Read } from './port.ts';

export interface Shown<T> {
  /** Stays while it is fetched again, and when that fails. */
  readonly data: T | undefined;
  /** Why the last fetch failed. */
  readonly problem: Problem | undefined;
  readonly refresh: () => Promise<void>;
}

/** Reads when shown and again after every change of data. What is known stays on the screen meanwhile. */
export function useRead<T>(port: FieldPort, read: () => Promise<Read<T>>): Shown<T> {
  const [shown, setShown] = useState<Omit<Shown<T>, 'refresh'>>({ data: undefined, problem: undefined });
  const latest = useRef(read);
  const loop = useRef<() => Promise<void>>(undefined);
  useEffect(() => {
    latest.current = read;
  });
  useEffect(() => {
    const again = coalesce(async () => {
      const answer = await latest.current();
      setShown((now) => (answer.ok ? { data: answer.data, problem: undefined } : { ...now, problem: answer.problem }));
    });
    loop.current = again;
    void again();
    return port.subscribe((what) => {
      if (what === 'data') void again();
    });
  }, [port]);
  const refresh = useCallback(async () => loop.current?.(), []);
  return { ...shown, refresh };
}
