'use client';
import { useSyncExternalStore } from 'react';

let said = '';
const listeners = new Set<() => void>();
const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Says to a screen reader what an act did. To the eye the list of what was recorded says it; nothing may lie over the buttons. */
export function announce(text: string): void {
  // The same words twice are read twice only when the text differs.
  said = said === text ? `${text}\u00a0` : text;
  for (const listener of listeners) listener();
}

/** The live region of the app; stands once, outside whatever changes. */
export function Announcements() {
  const text = useSyncExternalStore(
    subscribe,
    () => said,
    () => '',
  );
  return (
    <p className="spoken" role="status" aria-live="polite">
      {text}
    </p>
  );
}
