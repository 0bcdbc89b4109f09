'use client';
import { newKey } from '../../lib/client.ts';
import { dayWords } from '../../lib/local-time.ts';
import { Button } from '../../ui/button.tsx';
import { MassField } from '../../ui/mass-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import type { CallDraft, PastRow } from './call-form.ts';
import { pastDay } from './past-day.ts';
import type { Change } from './use-draft.ts';
import css from './call.module.css';

const BY = [
  { value: 'us', text: 'Us' },
  { value: 'other', text: 'Somebody else' },
];

function Row({ row, at, today, errors, onChange, onRemove }: RowProps) {
  const day = pastDay(row.day, today);
  return (
    <li className={css['past']} aria-label={`Past addition ${at + 1}`}>
      <TextField
        id={`past-${at}-day`}
        label="Day"
        placeholder="75 days ago"
        autoComplete="off"
        hint={day === undefined ? undefined : dayWords(day)}
        value={row.day}
        error={errors[`past-${at}-day`]}
        onChange={({ target }) => onChange({ day: target.value })}
      />
      <MassField
        id={`past-${at}-mass`}
        label="Mass"
        optional
        hint={row.mass.trim() === '' ? 'Empty: not known.' : undefined}
        value={{ text: row.mass, unit: row.unit }}
        error={errors[`past-${at}-mass`]}
        onChange={({ text, unit }) => onChange({ mass: text, unit })}
      />
      <Select
        id={`past-${at}-by`}
        label="By"
        options={BY}
        value={row.by}
        onChange={({ target }) => onChange({ by: target.value === 'other' ? 'other' : 'us' })}
      />
      <Button onClick={onRemove} aria-label={`Remove past addition ${at + 1}`}>
        Remove
      </Button>
    </li>
  );
}
interface RowProps {
  readonly row: PastRow;
  readonly at: number;
  readonly today: string;
  readonly errors: Readonly<Record<string, string>>;
  readonly onChange: (change: Partial<PastRow>) => void;
  readonly onRemove: () => void;
}

/** Additions before this call: each counts for the days, those with a mass for the rate too. */
export function PastFields({ draft, change, errors, today }: PastProps) {
  const { past } = draft;
  const set = (id: string, part: Partial<PastRow>): void =>
    change({ past: past.map((row) => (row.id === id ? { ...row, ...part } : row)) });
  function add(): void {
    const at = past.length;
    change({ past: [...past, { id: newKey(), day: '', mass: '', unit: draft.chargeUnit, by: 'us' }] });
    requestAnimationFrame(() => document.getElementById(`past-${at}-day`)?.focus());
  }
  function remove(id: string): void {
    change({ past: past.filter((row) => row.id !== id) });
    requestAnimationFrame(() => document.getElementById('past-add')?.focus());
  }
  return (
    <fieldset className={css['part']}>
      <legend>
        Past additions <span className="quiet">(optional)</span>
      </legend>
      <p className="quiet">What was added before, by whomever. It decides the days that the leak rate counts.</p>
      <ul className={css['pasts']}>
        {past.map((row, at) => (
          <Row
            key={row.id}
            {...{ row, at, today, errors }}
            onChange={(part) => set(row.id, part)}
            onRemove={() => remove(row.id)}
          />
        ))}
      </ul>
      <div>
        <Button id="past-add" onClick={add}>
          Add a past addition
        </Button>
      </div>
    </fieldset>
  );
}
interface PastProps {
  readonly draft: CallDraft;
  readonly change: Change;
  readonly errors: Readonly<Record<string, string>>;
  readonly today: string;
}
