'use client';
import { Pair } from '../../ui/form-dialog.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { CERTIFICATE_OPTIONS, type PaperForm } from './people-form.ts';

export interface PaperFieldsProps {
  readonly form: PaperForm;
  /** A new person may have none. */
  readonly mayBeNone: boolean;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<PaperForm>) => void;
}

/** Kind and days of a certificate. */
export function PaperFields({ form, mayBeNone, errors, change }: PaperFieldsProps) {
  return (
    <>
      <Select
        id="people-type"
        label="Certificate"
        hint="EPA section 608, 40 CFR 82.161."
        optional={mayBeNone}
        options={[...(mayBeNone ? [{ value: '', text: 'None' }] : []), ...CERTIFICATE_OPTIONS]}
        value={form.type}
        error={errors['people-type']}
        onChange={({ target }) => change({ type: target.value })}
      />
      {form.type !== '' && (
        <Pair>
          <TextField
            id="people-registeredOn"
            type="date"
            label="Registered on"
            optional={form.type !== 'apprentice'}
            value={form.registeredOn}
            error={errors['people-registeredOn']}
            onChange={({ target }) => change({ registeredOn: target.value })}
          />
          <TextField
            id="people-endsOn"
            type="date"
            label="Ends on"
            optional
            hint="The last day it holds."
            value={form.endsOn}
            error={errors['people-endsOn']}
            onChange={({ target }) => change({ endsOn: target.value })}
          />
        </Pair>
      )}
    </>
  );
}
