import type { ComponentProps } from 'react';
import css from './phone.module.css';

export interface BigButtonProps extends Omit<ComponentProps<'button'>, 'disabled'> {
  readonly kind?: 'main' | 'plain';
  readonly busy?: boolean;
}

/** A button for gloves: as wide as the screen, 56 px high. */
export function BigButton({ kind = 'main', busy = false, onClick, ...rest }: BigButtonProps) {
  return (
    <button
      type="button"
      {...rest}
      className={css['big']}
      data-kind={kind}
      aria-disabled={busy || undefined}
      onClick={(event) => {
        if (busy) event.preventDefault();
        else onClick?.(event);
      }}
    />
  );
}
