'use client';
import type { Role } from '@ullage/contracts';
import { useState } from 'react';
import { errorsByField, type Problem } from '../../lib/problem.ts';
import { Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { HandedLink, type Handed } from './link-once.tsx';
import { peopleField, rolesFor, type Member } from './people-form.ts';
import { useAct } from '../../lib/use-act.ts';
import css from './people.module.css';

export interface InviteProps {
  readonly mine: Role;
  /** Whether the link is mailed; else whoever invites hands it on. */
  readonly mails: boolean;
  /** Somebody who is registered already and shall sign in now. */
  readonly person: Member | undefined;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

interface InviteFieldsProps {
  readonly mine: Role;
  readonly email: string;
  readonly role: string;
  readonly problem: Problem | undefined;
  readonly setEmail: (email: string) => void;
  readonly setRole: (role: string) => void;
  readonly onSubmit: () => void;
}
function InviteFields({ mine, email, role, problem, setEmail, setRole, onSubmit }: InviteFieldsProps) {
  const errors = errorsByField(problem);
  return (
    <form
      className={css['fields']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        onSubmit();
      }}
    >
      <ProblemSummary problem={problem} fieldOf={peopleField} />
      <TextField
        id="people-email"
        type="email"
        label="E-mail"
        hint={'They sign in with it. It must be theirs: the link works for this address alone.'}
        autoComplete="off"
        autoFocus
        value={email}
        error={errors['email']}
        onChange={({ target }) => setEmail(target.value)}
      />
      <Select
        id="people-role"
        label="Role"
        ask="Choose"
        options={rolesFor(mine)}
        value={role}
        error={errors['role']}
        onChange={({ target }) => setRole(target.value)}
      />
      <button type="submit" hidden />
    </form>
  );
}

/** Invites by a link, which is mailed or handed on by whoever invites. */
export function InviteDialog({ mine, mails, person, onClose, onChanged }: InviteProps) {
  const [email, setEmail] = useState(person?.email ?? '');
  const [role, setRole] = useState<string>(person ? 'technician' : '');
  const [link, setLink] = useState<Handed>();
  const { busy, problem, act, refuse } = useAct();
  async function invite(): Promise<void> {
    if (role === '') return refuse([{ pointer: '#/role', detail: 'Role: choose one from the list.' }]);
    const body = { email: email.trim(), role, ...(person ? { personId: person.id } : {}) };
    const made = await act<Handed>('/v1/people/invitations', { body });
    if (!made) return;
    setLink(made);
    onChanged();
  }
  return (
    <Dialog
      open
      title={person ? `Invite ${person.name}` : 'Invite somebody'}
      onClose={onClose}
      actions={
        link ? (
          <Button autoFocus={link.url === null} onClick={onClose}>
            Done
          </Button>
        ) : (
          <>
            <Button kind="main" busy={busy} onClick={() => void invite()}>
              {mails ? 'Send the invitation' : 'Make the link'}
            </Button>
            <Button onClick={onClose}>Leave it</Button>
          </>
        )
      }
    >
      {link ? (
        <HandedLink link={link} shown={`Hand this link to ${link.to}.`} />
      ) : (
        <InviteFields
          {...{ mine, email, role, problem, setEmail, setRole }}
          onSubmit={() => {
            if (!busy) void invite();
          }}
        />
      )}
    </Dialog>
  );
}
