'use client';
import { useId } from 'react';
import type { Quantity } from '../number-field.tsx';
import { pressKey, type PadKey } from './keys.ts';
import css from './keypad.module.css';

export interface KeypadFieldProps<U extends string> {
  readonly label: string;
  readonly value: Quantity<U>;
  readonly onChange: (value: Quantity<U>) => void;
  /** At most two have keys of their own. */
  readonly units: readonly { readonly id: U; readonly text: string }[];
  readonly onNext: () => void;
  readonly nextText?: string;
  readonly error?: string | undefined;
  /** Figures that can lie below zero. */
  readonly signed?: boolean;
}

const ROWS: readonly (readonly PadKey[])[] = [
  ['1', '2', '3'],
  ['4', '5', '6'],
  ['7', '8', '9'],
];

function Key({ text, spoken, kind, pressed, onPress }: KeyProps) {
  return (
    <button type="button" data-kind={kind} aria-label={spoken} aria-pressed={pressed} onClick={onPress}>
      {text}
    </button>
  );
}
interface KeyProps {
  readonly text: string;
  readonly spoken?: string | undefined;
  readonly kind?: 'unit' | 'main';
  readonly pressed?: boolean;
  readonly onPress: () => void;
}

/** The right-hand key of a row: units first, then clear. */
function sideKey<U extends string>(row: number, props: KeypadFieldProps<U>): KeyProps {
  const unit = props.units[row];
  if (!unit || row === 2)
    return { text: 'Clear', kind: 'unit', onPress: () => props.onChange({ text: '', unit: props.value.unit }) };
  return {
    text: unit.text,
    kind: 'unit',
    pressed: unit.id === props.value.unit,
    onPress: () => props.onChange({ text: props.value.text, unit: unit.id }),
  };
}

/** A figure with keys for gloves. The field above takes a hardware keyboard and a scanner that types as well. */
export function KeypadField<U extends string>(props: KeypadFieldProps<U>) {
  const { label, value, onChange, units, onNext, nextText = 'Next', error, signed = false } = props;
  const id = useId();
  const press = (key: PadKey) => (): void => onChange({ text: pressKey(value.text, key), unit: value.unit });
  const shown = units.find((unit) => unit.id === value.unit)?.text ?? value.unit;
  return (
    <form
      className={css['keypad']}
      onSubmit={(event) => {
        event.preventDefault();
        onNext();
      }}
    >
      <div className={css['face']}>
        <label htmlFor={id}>{label}</label>
        <input
          id={id}
          inputMode="none"
          autoComplete="off"
          value={value.text}
          onChange={(event) => onChange({ text: event.target.value, unit: value.unit })}
          aria-invalid={error ? true : undefined}
          aria-describedby={error ? `${id}-error ${id}-unit` : `${id}-unit`}
        />
        <span id={`${id}-unit`}>{shown}</span>
      </div>
      {error && (
        <p id={`${id}-error`} className={css['error']} role="alert">
          {error}
        </p>
      )}
      <div className={css['pad']} role="group" aria-label={`Keys for ${label}`}>
        {ROWS.map((row, i) => [
          ...row.map((key) => <Key key={key} text={key} onPress={press(key)} />),
          <Key key={`side${i}`} {...sideKey(i, props)} />,
        ])}
        <Key text="." spoken="point" onPress={press('point')} />
        <Key text="0" onPress={press('0')} />
        {signed ? <Key text="−" spoken="minus" onPress={press('minus')} /> : <span />}
        <button type="submit" data-kind="main">
          {nextText}
        </button>
      </div>
    </form>
  );
}
