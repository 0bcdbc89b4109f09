'use client';
import { useEffect, useRef } from 'react';
import { arrivedSince, arrivedWords, type Notice } from '../../office/notices.ts';
import { tell } from '../../ui/toast.tsx';

/** Tells of each notice that arrives while the page stands open, to eyes and to a screen reader, once. */
export function useArrivals(notices: readonly Notice[]): void {
  const known = useRef<Set<string>>(undefined);
  useEffect(() => {
    const arrived = arrivedSince(known.current, notices);
    // What was known stays known: a notice that comes back with its duty is no news.
    known.current = new Set([...(known.current ?? []), ...notices.map(({ id }) => id)]);
    if (arrived.length > 0) tell(arrivedWords(arrived), 'warn');
  }, [notices]);
}
