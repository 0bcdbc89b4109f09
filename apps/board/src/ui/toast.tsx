'use client';
import { useSyncExternalStore } from 'react';
import { Shape } from './state.tsx';
import type { Mark } from './marks.tsx';
import css from './toast.module.css';

interface Said {
  readonly id: number;
  readonly text: string;
  readonly mark: Mark;
}
const KEEP_MS = 7_000;
const NONE: readonly Said[] = [];
let said: readonly Said[] = NONE;
let next = 1;
const listeners = new Set<() => void>();

function set(list: readonly Said[]): void {
  said = list;
  for (const listener of listeners) listener();
}
const drop = (id: number): void => set(said.filter((one) => one.id !== id));

/** Tells what an act did, in words, to eyes and to a screen reader; goes by itself. Never the only place of a refusal. */
export function tell(text: string, mark: Mark = 'done'): void {
  const id = next++;
  set([...said.slice(-2), { id, text, mark }]);
  setTimeout(() => drop(id), KEEP_MS);
}

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** The one status region of a page. */
export function Toasts() {
  const list = useSyncExternalStore(
    subscribe,
    () => said,
    () => NONE,
  );
  return (
    <div className={css['region']} role="status" aria-live="polite">
      {list.map(({ id, text, mark }) => (
        <p key={id} className={css['toast']}>
          <Shape mark={mark} />
          <span>{text}</span>
          <button type="button" onClick={() => drop(id)}>
            <span className="spoken">Dismiss</span>
            <span aria-hidden="true">×</span>
          </button>
        </p>
      ))}
    </div>
  );
}
