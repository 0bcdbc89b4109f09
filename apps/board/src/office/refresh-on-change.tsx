'use client';
import { useRouter } from 'next/navigation';
import { useEffect, useTransition } from 'react';
import { liveHub } from '../lib/live-hub.ts';

/** Several changes within this time cost one fetch. */
const SETTLE_MS = 150;

/** Keeps a page that the server draws up to date: asks for it anew when something changed or a lost line is back. */
export function RefreshOnChange() {
  const router = useRouter();
  const [, start] = useTransition();
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const leave = liveHub.join((signal) => {
      if (signal === 'lost') return;
      clearTimeout(timer);
      timer = setTimeout(() => start(() => router.refresh()), SETTLE_MS);
    });
    return () => {
      clearTimeout(timer);
      leave();
    };
  }, [router]);
  return null;
}
