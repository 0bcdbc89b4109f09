'use client';
import { useEffect, useRef, useState } from 'react';
import { coalesce } from './coalesce.ts';
import { liveHub } from './live-hub.ts';

/** Between two fetches of one list: well inside what an account may ask in a minute, and no wait that anybody notices. */
const REST_MS = 500;

export interface Live<T> {
  readonly data: T;
  /** False while the line is down: what is shown is what was last known. */
  readonly live: boolean;
  /** Fetches now, for instance after an act of one's own. */
  readonly refresh: () => void;
}

/**
 * Shows `first` from the server, then fetches again whenever the server says something changed, when a lost line comes
 * back, and when a new `first` arrives from a navigation. `fetchAgain` rejects when the server cannot be reached.
 * `isOlder` guards against answers that overtake each other.
 */
export function useLive<T>(
  first: T,
  fetchAgain: () => Promise<T>,
  isOlder: (next: T, shown: T) => boolean = () => false,
): Live<T> {
  const [shown, setShown] = useState({ from: first, data: first, live: true });
  if (shown.from !== first) setShown({ from: first, data: first, live: shown.live });
  const latest = useRef({ fetchAgain, isOlder });
  useEffect(() => {
    latest.current = { fetchAgain, isOlder };
  });
  const refresh = useRef<() => void>(() => undefined);
  useEffect(() => {
    const lost = (): void => setShown((s) => (s.live ? { ...s, live: false } : s));
    const run = coalesce(async () => {
      const answer = await latest.current.fetchAgain().then(
        (data) => ({ data }),
        () => undefined,
      );
      if (!answer) return lost();
      const { isOlder: older } = latest.current;
      setShown((s) => ({ ...s, live: true, data: older(answer.data, s.data) ? s.data : answer.data }));
    }, REST_MS);
    const again = (): void => void run();
    refresh.current = again;
    const leave = liveHub.join((signal) => (signal === 'lost' ? lost() : again()));
    addEventListener('online', again);
    return () => {
      removeEventListener('online', again);
      leave();
    };
  }, []);
  return { data: shown.data, live: shown.live, refresh: () => refresh.current() };
}
