'use client';
import type { HTMLAttributes, KeyboardEvent } from 'react';
import { describedBy, FieldFrame, FieldGroup, type FieldTexts } from '../../ui/field.tsx';
import { TextArea, TextField } from '../../ui/text-field.tsx';
import { CheckRow } from '../../ui/check-row.tsx';
import { Select } from '../../ui/select.tsx';
import frame from '../../ui/field.module.css';
import { cx } from '../../ui/cx.ts';
import type { Typed } from '../check.ts';
import type { Choice } from '../words.ts';
import type { Bound } from './bind.ts';
import css from './fields.module.css';

type Texts = Omit<FieldTexts, 'error'>;

/** A figure and the unit it was read in, each unit a key of its own: a glove hits no list. */
export function Figure({ id, error, value, onChange, units, label, hint, optional = false }: FigureProps) {
  return (
    <FieldFrame id={id} label={label} hint={hint} error={error} optional={optional}>
      <div className={css['figure']}>
        <input
          id={id}
          className={frame['control']}
          inputMode={value.unit === 'lb-oz' ? 'text' : 'decimal'}
          autoComplete="off"
          placeholder={value.unit === 'lb-oz' ? '3 lb 4 oz' : undefined}
          value={value.text}
          onChange={(event) => onChange({ text: event.target.value, unit: value.unit })}
          aria-required={!optional}
          aria-invalid={error ? true : undefined}
          aria-describedby={describedBy(id, { hint, error })}
        />
        <div className={css['units']} role="group" aria-label={`Unit of ${label}`}>
          {units.map((unit) => (
            <button
              key={unit.value}
              type="button"
              aria-pressed={unit.value === value.unit}
              onClick={() => onChange({ text: value.text, unit: unit.value })}
            >
              {unit.text}
            </button>
          ))}
        </div>
      </div>
    </FieldFrame>
  );
}
export type FigureProps = Texts & Bound<Typed> & { readonly units: readonly Choice[] };

export const MASS_KEYS: readonly Choice[] = [
  { value: 'lb', text: 'lb' },
  { value: 'g', text: 'g' },
  { value: 'kg', text: 'kg' },
  { value: 'lb-oz', text: 'lb oz' },
];
export const PRESSURE_KEYS: readonly Choice[] = [
  { value: 'psig', text: 'psig' },
  { value: 'kpa-gauge', text: 'kPa g' },
  { value: 'bar-gauge', text: 'bar g' },
];
/** At and below the site's own pressure a gauge shows a vacuum. */
export const LOW_PRESSURE_KEYS: readonly Choice[] = [
  { value: 'psig', text: 'psig' },
  { value: 'inhg-vacuum', text: 'inHg vac' },
  { value: 'kpa', text: 'kPa abs' },
];
export const VACUUM_KEYS: readonly Choice[] = [
  { value: 'micron', text: 'micron' },
  { value: 'pa', text: 'Pa' },
];
export const MINUTE_KEYS: readonly Choice[] = [{ value: 'min', text: 'min' }];
export const GRAMS_A_YEAR: readonly Choice[] = [{ value: 'g/yr', text: 'g/yr' }];
export const TEMPERATURE_KEYS: readonly Choice[] = [
  { value: 'F', text: '°F' },
  { value: 'C', text: '°C' },
];

/** A few answers side by side, one of them chosen; arrow keys move between them. */
export function Keys<T extends string>({ id, error, value, onChange, choices, ...texts }: KeysProps<T>) {
  return (
    <FieldGroup id={id} error={error} {...texts}>
      <div className={css['keys']}>
        {choices.map((choice) => (
          <label key={choice.value} className={css['key']}>
            <input type="radio" name={id} checked={choice.value === value} onChange={() => onChange(choice.value)} />
            <span>
              {choice.text}
              {choice.note !== undefined && <small>{choice.note}</small>}
            </span>
          </label>
        ))}
      </div>
    </FieldGroup>
  );
}
export type KeysProps<T extends string> = Texts &
  Omit<Bound<string>, 'onChange'> & { readonly choices: readonly Choice<T>[]; readonly onChange: (value: T) => void };

/** Some of a list. */
export function Ticks({ id, error, value, onChange, choices, ...texts }: TicksProps) {
  return (
    <FieldGroup id={id} error={error} {...texts}>
      {choices.map((choice) => (
        <CheckRow
          key={choice.value}
          checked={value.includes(choice.value)}
          note={choice.note}
          onChange={(event) =>
            onChange(
              event.target.checked ? [...value, choice.value] : value.filter((chosen) => chosen !== choice.value),
            )
          }
        >
          {choice.text}
        </CheckRow>
      ))}
    </FieldGroup>
  );
}
export type TicksProps = Texts & Bound<readonly string[]> & { readonly choices: readonly Choice[] };

export type LineProps = Texts &
  Bound<string> & {
    readonly inputMode?: HTMLAttributes<HTMLInputElement>['inputMode'];
    readonly maxLength?: number;
    readonly onEnter?: () => void;
    readonly figure?: boolean;
    readonly list?: string;
  };
/** One line of text. */
export function Line({ value, onChange, onEnter, figure = false, optional = false, ...rest }: LineProps) {
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || !onEnter) return;
    event.preventDefault();
    onEnter();
  };
  return (
    <TextField
      {...rest}
      optional={optional}
      value={value}
      className={cx(figure && css['clear'])}
      autoComplete="off"
      onChange={(event) => onChange(event.target.value)}
      onKeyDown={onKeyDown}
    />
  );
}

/** A few lines of text. */
export function Area({ value, onChange, ...rest }: Texts & Bound<string> & { readonly rows?: number }) {
  return <TextArea {...rest} maxLength={4000} value={value} onChange={(event) => onChange(event.target.value)} />;
}

/** One of a long list. */
export function Pick({ value, onChange, choices, ask = 'Choose one', ...rest }: PickProps) {
  return (
    <Select {...rest} ask={ask} value={value} options={choices} onChange={(event) => onChange(event.target.value)} />
  );
}
export type PickProps = Texts & Bound<string> & { readonly choices: readonly Choice[]; readonly ask?: string };
