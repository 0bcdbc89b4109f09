'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { changePassword } from '../../lib/auth.ts';
import { Actions, Button } from '../../ui/button.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { tell } from '../../ui/toast.tsx';
import { accountField } from './account-fields.ts';
import { Part } from './settings-page.tsx';
import { errorsByField } from '../../lib/problem.ts';
import { useWork } from '../../lib/use-act.ts';
import css from './settings.module.css';

export function PasswordForm({ email }: { email: string }) {
  const [now, setNow] = useState('');
  const [next, setNext] = useState('');
  const { busy, problem, run } = useWork();
  const errors = errorsByField(problem);
  const router = useRouter();
  async function save(): Promise<void> {
    if ((await run(() => changePassword(now, next))) === undefined) return;
    setNow('');
    setNext('');
    tell('The new password holds. All other devices are signed out.');
    router.refresh();
  }
  return (
    <Part id="password" title="Password">
      <form
        className={css['form']}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          if (!busy) void save();
        }}
      >
        <ProblemSummary problem={problem} fieldOf={accountField} />
        <input type="email" name="email" autoComplete="username" value={email} readOnly hidden />
        <TextField
          id="account-currentPassword"
          label="Password now"
          type="password"
          autoComplete="current-password"
          value={now}
          error={errors['currentPassword']}
          onChange={({ target }) => setNow(target.value)}
        />
        <TextField
          id="account-newPassword"
          label="New password"
          type="password"
          autoComplete="new-password"
          maxLength={128}
          hint="At least 10 characters. A short sentence is good. All other devices are then signed out."
          value={next}
          error={errors['newPassword']}
          onChange={({ target }) => setNext(target.value)}
        />
        <Actions>
          <Button type="submit" busy={busy}>
            Change the password
          </Button>
        </Actions>
      </form>
    </Part>
  );
}
