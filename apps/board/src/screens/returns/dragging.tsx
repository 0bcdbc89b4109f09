'use client';
import dynamic from 'next/dynamic';
import { useEffect, useState } from 'react';
import type { DragProps } from './use-drag.ts';

const DragLayer = dynamic(() => import('./drag-layer.tsx').then((layer) => layer.DragLayer), { ssr: false });

/**
 * Rows may be dragged onto a person's day. Loaded when a mouse or trackpad first moves over the page: who has none, or
 * works by keyboard, has the form and the suggestions, and loads nothing.
 */
export function Dragging(props: DragProps) {
  const [wanted, setWanted] = useState(false);
  useEffect(() => {
    const moved = ({ pointerType }: PointerEvent): void => {
      if (pointerType === 'mouse') setWanted(true);
    };
    addEventListener('pointermove', moved, { passive: true });
    return () => removeEventListener('pointermove', moved);
  }, []);
  return wanted ? <DragLayer {...props} /> : null;
}
