'use client';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { PaperFields } from './paper-fields.tsx';
import { peopleErrors, peopleField, personBody, personGaps, type PersonForm } from './people-form.ts';
import { useAct } from '../../lib/use-act.ts';

export interface PersonDialogProps {
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

function WhoFields({ form, errors, change }: WhoProps) {
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
interface WhoProps {
  readonly form: PersonForm;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<PersonForm>) => void;
}

const nobody = (): PersonForm => ({
  personId: newKey(),
  certificateId: newKey(),
  name: '',
  email: '',
  type: '',
  registeredOn: '',
  endsOn: '',
});

/** Registers a person, with a certificate where they have one. */
export function PersonDialog({ onClose, onChanged }: PersonDialogProps) {
  const [form, setForm] = useState(nobody);
  const { busy, problem, act, refuse } = useAct();
  const errors = peopleErrors(problem?.errors ?? []);
  async function save(): Promise<void> {
    const gaps = personGaps(form);
    if (gaps.length > 0) return refuse(gaps);
    const done = await act('/v1/commands/register-person', { body: { body: personBody(form) } });
    if (done === undefined) return;
    tell(`${form.name.trim()} is registered.`);
    onChanged();
    onClose();
  }
  const change = (part: Partial<PersonForm>): void => setForm((old) => ({ ...old, ...part }));
  return (
    <FormDialog
      title="Register a person"
      act="Register"
      onSubmit={() => void save()}
      fieldOf={peopleField}
      {...{ busy, problem, onClose }}
    >
      <WhoFields {...{ form, errors, change }} />
      <PaperFields {...{ form, errors, change }} mayBeNone />
    </FormDialog>
  );
}
