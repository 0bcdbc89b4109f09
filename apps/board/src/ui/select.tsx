'use client';
import { useId, type ComponentProps } from 'react';
import { cx } from './cx.ts';
import { describedBy, FieldFrame, type FieldTexts } from './field.tsx';
import frame from './field.module.css';
import css from './select.module.css';

export interface Option {
  readonly value: string;
  readonly text: string;
  readonly disabled?: boolean;
}
export type SelectProps = FieldTexts &
  Omit<ComponentProps<'select'>, 'required' | 'children'> & {
    readonly options: readonly Option[];
    /** Shown while nothing is chosen; choosing it again is not possible. */
    readonly ask?: string;
  };

interface SelectBoxProps extends ComponentProps<'select'> {
  readonly options: readonly Option[];
  readonly ask?: string | undefined;
}
/** The list without its label, for a row of filters. */
export function SelectBox({ options, ask, className, ...select }: SelectBoxProps) {
  return (
    <div className={css['box']}>
      <select {...select} className={cx(frame['control'], css['select'], className)}>
        {ask !== undefined && <option value="">{ask}</option>}
        {options.map(({ value, text, disabled }) => (
          <option key={value} value={value} disabled={disabled}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}

/** The platform's own list: keyboard, type-ahead, screen readers and phones know it. */
export function Select({ label, hint, error, optional = false, id, options, ask, className, ...select }: SelectProps) {
  const made = useId();
  const at = id ?? made;
  return (
    <FieldFrame id={at} label={label} hint={hint} error={error} optional={optional}>
      <SelectBox
        {...select}
        id={at}
        options={options}
        ask={ask}
        className={className}
        aria-required={!optional}
        aria-invalid={error ? true : undefined}
        aria-describedby={describedBy(at, { hint, error })}
      />
    </FieldFrame>
  );
}
