'use client';
import { ReturnsView } from '@ullage/contracts';
import { useEffect, useEffectEvent, useRef, useState } from 'react';
import { call } from '../../lib/client.ts';
import { useLive, type Live } from '../../lib/use-live.ts';
import { changesInWords } from './rows.ts';

const MINUTE_MS = 60_000;

async function fetchReturns(): Promise<ReturnsView> {
  const answer = await call<unknown>('/v1/returns');
  if (!answer.ok) throw new Error(answer.problem.title);
  return ReturnsView.parse(answer.data);
}
const isOlder = (next: ReturnsView, shown: ReturnsView): boolean => next.number < shown.number;

/** The list as it stands, what last changed in words for the ear, and a fetch every minute because time passes. */
export function useReturns(first: ReturnsView): Live<ReturnsView> & { readonly said: string } {
  const live = useLive(first, fetchReturns, isOlder);
  const before = useRef(live.data);
  const [said, setSaid] = useState('');
  useEffect(() => {
    const changes = changesInWords(before.current, live.data);
    before.current = live.data;
    if (changes.length > 0) setSaid(changes.join(' '));
  }, [live.data]);
  const refresh = useEffectEvent(live.refresh);
  useEffect(() => {
    const timer = setInterval(() => {
      if (document.visibilityState === 'visible') refresh();
    }, MINUTE_MS);
    return () => clearInterval(timer);
  }, []);
  return { ...live, said };
}
