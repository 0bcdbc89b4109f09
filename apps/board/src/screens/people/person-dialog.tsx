'use client';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import {
  CERTIFICATE_OPTIONS,
  peopleField,
  personBody,
  personGaps,
  type Member,
  type PersonForm,
} from './people-form.ts';
import { useAct } from './use-act.ts';
import css from './people.module.css';

export interface PersonDialogProps {
  /** Somebody who gets one more certificate; undefined for a new person. */
  readonly person: Member | undefined;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

function WhoFields({ form, errors, change }: Omit<FieldsProps, 'known'>) {
  return (
    <>
      <TextField
        id="people-name"
        label="Name"
        autoComplete="off"
        autoFocus
        value={form.name}
        error={errors['people-name']}
        onChange={({ target }) => change({ name: target.value })}
      />
      <TextField
        id="people-email"
        type="email"
        label="E-mail"
        optional
        hint="Whoever is invited under it becomes this person."
        autoComplete="off"
        value={form.email}
        error={errors['people-email']}
        onChange={({ target }) => change({ email: target.value })}
      />
    </>
  );
}

function Fields({ form, known, errors, change }: FieldsProps) {
  return (
    <>
      {!known && <WhoFields {...{ form, errors, change }} />}
      <Select
        id="people-type"
        label="Certificate"
        hint="EPA section 608, 40 CFR 82.161."
        optional={!known}
        options={[...(known ? [] : [{ value: '', text: 'None' }]), ...CERTIFICATE_OPTIONS]}
        value={form.type}
        error={errors['people-type']}
        onChange={({ target }) => change({ type: target.value })}
      />
      {form.type !== '' && (
        <div className={css['pair']}>
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
            value={form.endsOn}
            error={errors['people-endsOn']}
            onChange={({ target }) => change({ endsOn: target.value })}
          />
        </div>
      )}
    </>
  );
}
interface FieldsProps {
  readonly form: PersonForm;
  readonly known: boolean;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<PersonForm>) => void;
}

const firstForm = (person: Member | undefined): PersonForm => ({
  personId: person?.id ?? newKey(),
  certificateId: newKey(),
  name: person?.name ?? '',
  email: '',
  type: person ? 'universal' : '',
  registeredOn: '',
  endsOn: '',
});

/** Registers a person with a certificate, or one more certificate of a person. */
export function PersonDialog({ person, onClose, onChanged }: PersonDialogProps) {
  const [form, setForm] = useState(() => firstForm(person));
  const { busy, problem, act, refuse } = useAct();
  const errors: Record<string, string> = {};
  for (const { pointer, detail } of problem?.errors ?? []) errors[peopleField(pointer)?.id ?? ''] ??= detail;
  async function save(): Promise<void> {
    const gaps = personGaps(form);
    if (gaps.length > 0) return refuse(gaps);
    const done = await act('/v1/commands/register-person', { body: { body: personBody(form) } });
    if (done === undefined) return;
    tell(`${form.name.trim()} is registered.`);
    onChanged();
    onClose();
  }
  return (
    <Dialog
      open
      title={person ? `Certificate of ${person.name}` : 'Register a person'}
      onClose={onClose}
      actions={
        <>
          <Button kind="main" busy={busy} onClick={() => void save()}>
            Register
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </>
      }
    >
      <form
        className={css['fields']}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          if (!busy) void save();
        }}
      >
        <ProblemSummary problem={problem} fieldOf={peopleField} />
        <Fields
          {...{ form, errors }}
          known={person !== undefined}
          change={(part) => setForm((old) => ({ ...old, ...part }))}
        />
        <button type="submit" hidden />
      </form>
    </Dialog>
  );
}
