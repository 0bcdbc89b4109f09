'use client';
import { Button } from '../../ui/button.tsx';
import { FieldFrame } from '../../ui/field.tsx';
import control from '../../ui/field.module.css';
import css from './period.module.css';
import type { Days } from './periods.ts';

/** Any days at all: a plain form, so that the address says what is shown. */
export function PeriodForm({ from, to }: Days) {
  return (
    <form role="search" aria-label="Period" action="/books/period" className={css['days']}>
      <FieldFrame id="from" label="First day">
        <input id="from" name="from" type="date" required className={control['control']} defaultValue={from} />
      </FieldFrame>
      <FieldFrame id="to" label="Last day">
        <input id="to" name="to" type="date" required className={control['control']} defaultValue={to} />
      </FieldFrame>
      <Button type="submit">Show</Button>
    </form>
  );
}
