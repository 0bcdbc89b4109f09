'use client';
import { useId } from 'react';
import { cx } from './cx.ts';
import { describedBy, FieldFrame, type FieldTexts } from './field.tsx';
import frame from './field.module.css';
import css from './number-field.module.css';
import list from './select.module.css';

/** A figure as typed, and the unit it was typed in: neither is ever converted behind the person's back. */
export interface Quantity<U extends string> {
  readonly text: string;
  readonly unit: U;
}
export interface NumberFieldProps<U extends string> extends FieldTexts {
  readonly id?: string;
  readonly name?: string;
  /** One unit is shown as text, several as a choice. */
  readonly units: readonly { readonly id: U; readonly text: string; readonly spoken?: string }[];
  readonly value: Quantity<U>;
  readonly onChange: (value: Quantity<U>) => void;
  readonly onBlur?: () => void;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
}

/** A figure with its unit. The text stays as typed, so a slip can be seen and mended; checks happen outside. */
export function NumberField<U extends string>(props: NumberFieldProps<U>) {
  const { label, hint, error, optional = false, units, value, onChange } = props;
  const made = useId();
  const id = props.id ?? made;
  const [only] = units;
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} optional={optional}>
      <div className={css['pair']}>
        <input
          id={id}
          name={props.name}
          className={cx(frame['control'], css['figure'])}
          inputMode={value.unit === 'lb-oz' ? 'text' : 'decimal'}
          autoComplete="off"
          autoFocus={props.autoFocus}
          placeholder={props.placeholder}
          value={value.text}
          onChange={(event) => onChange({ text: event.target.value, unit: value.unit })}
          onBlur={props.onBlur}
          aria-required={!optional}
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(id, { hint, error })}
        />
        {units.length === 1 && only ? (
          <span className={css['unit']}>
            <span className="spoken">{only.spoken}</span>
            <span aria-hidden={only.spoken !== undefined}>{only.text}</span>
          </span>
        ) : (
          <div className={cx(list['box'], css['side'])}>
            <select
              className={cx(frame['control'], list['select'], css['choice'])}
              aria-label={`Unit of ${label}`}
              name={props.name && `${props.name}.unit`}
              value={value.unit}
              onChange={(event) => {
                const unit = units.find((one) => one.id === event.target.value);
                if (unit) onChange({ text: value.text, unit: unit.id });
              }}
            >
              {units.map((unit) => (
                <option key={unit.id} value={unit.id}>
                  {unit.text}
                </option>
              ))}
            </select>
          </div>
        )}
      </div>
    </FieldFrame>
  );
}
