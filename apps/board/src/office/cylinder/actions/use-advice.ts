'use client';
import type { CylinderListView, CylinderUseAdvice } from '@ullage/contracts';
import { useEffect, useState } from 'react';
import { call } from '../../../lib/client.ts';

/** Typing is waited out, so that the API is asked about figures and not about digits. */
const PAUSE_MS = 250;

/** The answer of an address, asked again when it changes; undefined while there is none. */
export function useAnswer<T>(path: `/v1/${string}` | undefined): T | undefined {
  const [found, setFound] = useState<{ path: string; data: T }>();
  useEffect(() => {
    if (path === undefined) return undefined;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      call<T>(path, { signal: stop.signal }).then(
        (answer) => answer.ok && setFound({ path, data: answer.data }),
        () => undefined,
      );
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [path]);
  return path === undefined ? undefined : found?.data;
}

/** What stops a transfer and what to mind, asked before it; undefined until it is known. */
export function useTransferAdvice(fromId: string, intoId: string, grams: number | undefined) {
  const asked = `act=transfer&intoId=${intoId}${grams === undefined ? '' : `&grams=${grams}`}`;
  return useAnswer<CylinderUseAdvice>(intoId === '' ? undefined : `/v1/cylinders/${fromId}/use?${asked}`);
}

/** The first cylinders whose serial, label or gas fits. */
export const useCylinders = (query: string): CylinderListView['items'] | undefined =>
  useAnswer<CylinderListView>(`/v1/cylinders?query=${encodeURIComponent(query)}`)?.items;
