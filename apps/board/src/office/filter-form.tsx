'use client';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/text-field.tsx';

/** A list's filter: a plain form, so that the address says what is shown. */
export function FilterForm({ action, label, query }: { action: string; label: string; query: string }) {
  return (
    <form role="search" aria-label="Filter" action={action}>
      <TextField
        label={label}
        name="query"
        type="search"
        defaultValue={query}
        maxLength={100}
        optional
        autoComplete="off"
      />
      <Button type="submit">Filter</Button>
    </form>
  );
}
