'use client';
import { useId } from 'react';
import { Button } from './button.tsx';
import { FieldFrame } from './field.tsx';
import css from './field.module.css';

export interface FilterFormProps {
  readonly action: string;
  readonly label: string;
  readonly query: string;
}

/** A list's filter: a plain form with `?query=`, so that the address says what is shown. */
export function FilterForm({ action, label, query }: FilterFormProps) {
  const id = useId();
  return (
    <form role="search" aria-label="Filter" action={action} className={css['filter']}>
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
      <Button type="submit">Filter</Button>
    </form>
  );
}
