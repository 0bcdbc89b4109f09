'use client';
import { useEffect, useId, useLayoutEffect, useRef, type ReactNode } from 'react';
import { cx } from './cx.ts';
import css from './dialog.module.css';

export interface DialogProps {
  readonly open: boolean;
  readonly title: string;
  readonly children: ReactNode;
  /** Buttons, the main one first. */
  readonly actions: ReactNode;
  /** Called for Escape and the closing cross too. */
  readonly onClose: () => void;
  readonly wide?: boolean;
}

const FIELD = ':is(input, select, textarea):not([type="hidden"])';

/** The platform's modal: it keeps the focus in and gives it back, and makes the page behind inert. */
export function Dialog({ open, title, children, actions, onClose, wide = false }: DialogProps) {
  const box = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = box.current;
    if (!dialog) return;
    if (open && !dialog.open) {
      dialog.showModal();
      // The platform takes the first control, which is the cross: whoever types at once would press it.
      dialog.querySelector<HTMLElement>(FIELD)?.focus();
    }
    if (!open && dialog.open) dialog.close();
  }, [open]);
  // A dialog that is taken away while it is open gives nothing back: it is closed before it leaves the page.
  useLayoutEffect(() => {
    const dialog = box.current;
    return () => dialog?.close();
  }, []);
  return (
    <dialog
      ref={box}
      className={cx(css['dialog'], wide && css['wide'])}
      aria-labelledby={id}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      {open && (
        <>
          <header>
            <h2 id={id}>{title}</h2>
            <button type="button" aria-label="Close" onClick={onClose}>
              <svg width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
                <path d="M1.5 1.5l9 9M10.5 1.5l-9 9" stroke="currentColor" strokeWidth="1.5" />
              </svg>
            </button>
          </header>
          <div className={css['body']}>{children}</div>
          <footer>{actions}</footer>
        </>
      )}
    </dialog>
  );
}
