'use client';
import { useEffect, useId, useRef } from 'react';
import { Button } from './button.tsx';
import { FieldFrame } from './field.tsx';
import css from './field.module.css';
import { SelectBox, type Option } from './select.tsx';

/** A list to choose from beside the text; choosing nothing asks for all. */
export interface FilterChoice {
  readonly name: string;
  readonly label: string;
  readonly all: string;
  readonly options: readonly Option[];
  readonly value: string;
}
export interface FilterFormProps {
  readonly action: string;
  readonly label: string;
  readonly query: string;
  readonly choices?: readonly FilterChoice[];
}

function Choice({ name, label, all, options, value }: FilterChoice) {
  const id = useId();
  return (
    <FieldFrame id={id} label={label}>
      <SelectBox id={id} name={name} defaultValue={value} ask={all} options={options} />
    </FieldFrame>
  );
}

/** What is not asked for does not stand in the address. */
function leaveOutEmpty({ formData }: FormDataEvent): void {
  for (const [name, value] of [...formData]) if (value === '') formData.delete(name);
}

/** A list's filter: a plain form with `?query=` and its choices, so that the address says what is shown. */
export function FilterForm({ action, label, query, choices = [] }: FilterFormProps) {
  const id = useId();
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    const element = form.current;
    element?.addEventListener('formdata', leaveOutEmpty);
    return () => element?.removeEventListener('formdata', leaveOutEmpty);
  }, []);
  return (
    <form ref={form} role="search" aria-label="Filter" action={action} className={css['filter']}>
      <FieldFrame id={id} label={label}>
        <input
          id={id}
          name="query"
          type="search"
          className={css['control']}
          defaultValue={query}
          maxLength={100}
          autoComplete="off"
        />
      </FieldFrame>
      {choices.map((choice) => (
        <Choice key={choice.name} {...choice} />
      ))}
      <Button type="submit">Filter</Button>
    </form>
  );
}
