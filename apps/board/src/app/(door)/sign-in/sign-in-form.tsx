'use client';
import { signIn } from '../../../lib/auth.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { KnownAccountFields } from '../account-fields.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, textOf, useDoor } from '../use-door.ts';

export function SignInForm({ to }: { to: string }) {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['email', 'password']),
    act: (form) => signIn({ email: textOf(form, 'email').trim(), password: textOf(form, 'password') }),
    to,
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <KnownAccountFields errors={errors} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Signing in' : 'Sign in'}
      </Button>
    </form>
  );
}
