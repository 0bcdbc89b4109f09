import type { ComponentProps } from 'react';
import { cx } from './cx.ts';
import css from './button.module.css';

export interface ButtonProps extends Omit<ComponentProps<'button'>, 'disabled'> {
  /** One main button a screen; `danger` for what cannot be taken back. */
  readonly kind?: 'main' | 'plain' | 'danger';
  /** While its act runs the button keeps its place and width, and further presses do nothing. */
  readonly busy?: boolean;
  /** Why it cannot be pressed now. The button stays reachable and says so. */
  readonly disabledBecause?: string | undefined;
}

export function Button({ kind = 'plain', busy = false, disabledBecause, className, onClick, ...rest }: ButtonProps) {
  const off = busy || disabledBecause !== undefined;
  return (
    <button
      type="button"
      {...rest}
      className={cx(css['button'], className)}
      data-kind={kind}
      aria-disabled={off || undefined}
      aria-busy={busy || undefined}
      title={disabledBecause ?? rest.title}
      onClick={(event) => {
        if (off) event.preventDefault();
        else onClick?.(event);
      }}
    />
  );
}

/** Buttons side by side, wrapping on a narrow screen. */
export function Actions({ children }: { children: ComponentProps<'div'>['children'] }) {
  return <div className={css['actions']}>{children}</div>;
}
