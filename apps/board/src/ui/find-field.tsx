'use client';
import { useEffect, useId, useRef } from 'react';
import css from './find-field.module.css';

export interface FindFieldProps {
  readonly label: string;
  /** A plain form sends here with `?query=`. */
  readonly action: string;
}

const typing = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.closest('input, textarea, select, [contenteditable], [role="listbox"]') !== null;

/** The search of the top bar; the slash key leads to it from anywhere but a field. */
export function FindField({ label, action }: FindFieldProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey || typing(event.target)) return;
      event.preventDefault();
      field.current?.focus();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  return (
    <form className={css['find']} role="search" action={action}>
      <label className="spoken" htmlFor={id}>
        {label}
      </label>
      <input
        ref={field}
        id={id}
        name="query"
        type="search"
        autoComplete="off"
        placeholder={label}
        aria-keyshortcuts="/"
      />
      <kbd aria-hidden="true">/</kbd>
    </form>
  );
}
