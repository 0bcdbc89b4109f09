'use client';
import { useEffect, useState } from 'react';
import { liveHub } from './live-hub.ts';

/** Whether changes of others reach this page; true until a loss is known. */
export function useLine(): boolean {
  const [up, setUp] = useState(true);
  useEffect(() => liveHub.join((signal) => setUp(signal !== 'lost')), []);
  return up;
}
