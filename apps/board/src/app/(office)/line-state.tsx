'use client';
import { useLine } from '../../lib/use-line.ts';
import { LiveState } from '../../ui/live-state.tsx';

export function LineState() {
  return <LiveState live={useLine()} />;
}
