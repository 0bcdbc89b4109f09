import type { ComponentProps, ReactNode } from 'react';
import css from './choice.module.css';

export interface CheckRowProps extends Omit<ComponentProps<'input'>, 'type'> {
  readonly children: ReactNode;
  readonly note?: ReactNode;
}

/** One statement to tick. The whole row is the target. */
export function CheckRow({ children, note, ...input }: CheckRowProps) {
  return (
    <label className={css['row']}>
      <input {...input} type="checkbox" />
      <span>
        {children}
        {note !== undefined && <small>{note}</small>}
      </span>
    </label>
  );
}
