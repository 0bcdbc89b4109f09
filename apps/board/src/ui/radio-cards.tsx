'use client';
import { useId, type ReactNode } from 'react';
import { FieldGroup, type FieldTexts } from './field.tsx';
import css from './choice.module.css';

export interface RadioCardsProps<T extends string> extends FieldTexts {
  readonly id?: string;
  readonly name: string;
  readonly choices: readonly {
    readonly value: T;
    readonly text: string;
    /** What choosing it means. */
    readonly note?: ReactNode;
    readonly disabledBecause?: string;
  }[];
  readonly value: T | undefined;
  readonly onChange: (value: T) => void;
}

/** A few choices that each need a sentence; arrow keys move between them. */
export function RadioCards<T extends string>({ id, name, choices, value, onChange, ...texts }: RadioCardsProps<T>) {
  const made = useId();
  return (
    <FieldGroup id={id ?? made} {...texts}>
      <div className={css['cards']}>
        {choices.map((choice) => (
          <label
            key={choice.value}
            className={css['card']}
            data-off={choice.disabledBecause !== undefined || undefined}
          >
            <input
              type="radio"
              name={name}
              value={choice.value}
              checked={choice.value === value}
              disabled={choice.disabledBecause !== undefined}
              onChange={() => onChange(choice.value)}
            />
            <span>
              <b>{choice.text}</b>
              {(choice.disabledBecause ?? choice.note) !== undefined && (
                <small>{choice.disabledBecause ?? choice.note}</small>
              )}
            </span>
          </label>
        ))}
      </div>
    </FieldGroup>
  );
}
