'use client';
import { useId, type ComponentProps } from 'react';
import { cx } from './cx.ts';
import { describedBy, FieldFrame, type FieldTexts } from './field.tsx';
import css from './field.module.css';

export type TextFieldProps = FieldTexts & Omit<ComponentProps<'input'>, 'required'>;

/** One line of text. Works plain (`name`, `defaultValue`), controlled, or with a form library's `ref`. */
export function TextField({ label, hint, error, optional = false, id, className, ...input }: TextFieldProps) {
  const made = useId();
  const at = id ?? made;
  return (
    <FieldFrame id={at} label={label} hint={hint} error={error} optional={optional}>
      <input
        type="text"
        {...input}
        id={at}
        className={cx(css['control'], className)}
        aria-required={!optional}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(at, { hint, error })}
      />
    </FieldFrame>
  );
}

export type TextAreaProps = FieldTexts & Omit<ComponentProps<'textarea'>, 'required'>;

export function TextArea({ label, hint, error, optional = false, id, rows = 3, className, ...area }: TextAreaProps) {
  const made = useId();
  const at = id ?? made;
  return (
    <FieldFrame id={at} label={label} hint={hint} error={error} optional={optional}>
      <textarea
        {...area}
        id={at}
        rows={rows}
        className={cx(css['control'], className)}
        aria-required={!optional}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(at, { hint, error })}
      />
    </FieldFrame>
  );
}
