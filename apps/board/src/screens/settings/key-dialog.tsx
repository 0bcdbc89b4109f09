'use client';
import { KEY_ROLES, type KeyRole } from '@ullage/contracts';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { errorsByField } from '../../lib/problem.ts';
import { FormDialog } from '../../ui/form-dialog.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { useAct } from '../../lib/use-act.ts';
import { KEY_ROLE_WORDS } from './key-words.ts';
import { Secret } from './secret-dialog.tsx';

const ROLES = KEY_ROLES.map((value) => ({ value, text: KEY_ROLE_WORDS[value] }));
const ENDS = [
  { value: '30', text: 'in 30 days' },
  { value: '90', text: 'in 90 days' },
  { value: '365', text: 'in a year' },
];
const LABELS: Readonly<Record<string, string>> = { name: 'Name', role: 'May', days: 'Ends' };
function keyField(pointer: string): { id: string; label: string } | undefined {
  const name = pointer.replace(/^#?\//, '');
  const label = LABELS[name];
  return label === undefined ? undefined : { id: `key-${name}`, label };
}

interface KeyForm {
  readonly name: string;
  readonly role: KeyRole;
  readonly days: string;
}
interface FieldsProps {
  readonly form: KeyForm;
  readonly errors: Readonly<Record<string, string>>;
  readonly change: (part: Partial<KeyForm>) => void;
}
function KeyFields({ form, errors, change }: FieldsProps) {
  return (
    <>
      <TextField
        id="key-name"
        label="Name"
        hint="The program that will hold it."
        autoFocus
        autoComplete="off"
        maxLength={80}
        value={form.name}
        error={errors['name']}
        onChange={({ target }) => change({ name: target.value })}
      />
      <Select
        id="key-role"
        label="May"
        options={ROLES}
        value={form.role}
        error={errors['role']}
        onChange={({ target }) => change({ role: KEY_ROLES.find((one) => one === target.value) ?? 'auditor' })}
      />
      <Select
        id="key-days"
        label="Ends"
        hint="It also ends when whoever made it no longer runs the firm."
        options={ENDS}
        value={form.days}
        error={errors['days']}
        onChange={({ target }) => change({ days: target.value })}
      />
    </>
  );
}

export function KeyDialog({ onClose }: { onClose: () => void }) {
  const [form, setForm] = useState<KeyForm>({ name: '', role: 'auditor', days: '90' });
  const [secret, setSecret] = useState<string>();
  const { busy, problem, act } = useAct();
  const router = useRouter();
  async function make(): Promise<void> {
    const body = { name: form.name.trim(), role: form.role, days: Number(form.days) };
    const made = await act<{ secret: string }>('/v1/keys', { body });
    if (!made) return;
    setSecret(made.secret);
    router.refresh();
  }
  if (secret !== undefined)
    return (
      <Secret title="The key" secret={secret} onClose={onClose}>
        It is shown this once. The program sends it in the header Authorization, after the word Bearer.
      </Secret>
    );
  return (
    <FormDialog
      title="Make a key"
      act="Make the key"
      fieldOf={keyField}
      onSubmit={() => void make()}
      {...{ busy, problem, onClose }}
    >
      <KeyFields
        form={form}
        errors={errorsByField(problem)}
        change={(part) => setForm((old) => ({ ...old, ...part }))}
      />
    </FormDialog>
  );
}
