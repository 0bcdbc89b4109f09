'use client';
import { useState } from 'react';
import { signIn, wantsCode } from '../../../lib/auth.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { KnownAccountFields } from '../account-fields.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, textOf, useDoor } from '../use-door.ts';
import { CodeForm } from './code-form.tsx';

export function SignInForm({ to }: { to: string }) {
  const [asked, setAsked] = useState(false);
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['email', 'password']),
    act: (form) => signIn({ email: textOf(form, 'email').trim(), password: textOf(form, 'password') }),
    to,
    asksMore: (data) => {
      const more = wantsCode(data);
      setAsked(more);
      return more;
    },
  });
  if (asked) return <CodeForm to={to} onBack={() => setAsked(false)} />;
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
