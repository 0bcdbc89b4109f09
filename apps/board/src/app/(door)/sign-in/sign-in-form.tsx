'use client';
import { signIn } from '../../../lib/auth.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, textOf, useDoor } from '../use-door.ts';

export interface SignInFormProps {
  readonly to: string;
  /** The address an invitation was sent to; it cannot be another. */
  readonly email?: string | undefined;
}

export function SignInForm({ to, email }: SignInFormProps) {
  const { busy, problem, errors, onSubmit } = useDoor(
    (form) => gapsOf(form, ['email', 'password']),
    (form) => signIn({ email: textOf(form, 'email').trim(), password: textOf(form, 'password') }),
    to,
  );
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <TextField
        id="email"
        name="email"
        label="E-mail"
        type="email"
        autoComplete="username"
        defaultValue={email}
        error={errors['email']}
      />
      <TextField
        id="password"
        name="password"
        label="Password"
        type="password"
        autoComplete="current-password"
        error={errors['password']}
      />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Signing in' : 'Sign in'}
      </Button>
    </form>
  );
}
