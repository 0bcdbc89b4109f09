'use client';
import { useState } from 'react';
import { signUp } from '../../../../lib/auth.ts';
import { Button } from '../../../../ui/button.tsx';
import { ProblemSummary } from '../../../../ui/problem-summary.tsx';
import { Segment } from '../../../../ui/segment.tsx';
import { TextField } from '../../../../ui/text-field.tsx';
import css from '../../door.module.css';
import { SignInForm } from '../../sign-in/sign-in-form.tsx';
import { doorField, gapsOf, newPasswordGaps, PASSWORD_MIN, textOf, useDoor } from '../../use-door.ts';

const WAYS = [
  { value: 'new', text: 'I am new here' },
  { value: 'known', text: 'I have an account' },
] as const;

function NewAccount({ to }: { to: string }) {
  const { busy, problem, errors, onSubmit } = useDoor(
    (form) => [...gapsOf(form, ['name', 'email', 'password']), ...newPasswordGaps(form)],
    (form) =>
      signUp({
        name: textOf(form, 'name').trim(),
        email: textOf(form, 'email').trim(),
        password: textOf(form, 'password'),
      }),
    to,
  );
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <TextField id="name" name="name" label="Your name" autoComplete="name" maxLength={120} error={errors['name']} />
      <TextField
        id="email"
        name="email"
        label="E-mail"
        hint="The address the link was sent to."
        type="email"
        autoComplete="username"
        error={errors['email']}
      />
      <TextField
        id="password"
        name="password"
        label="Password"
        type="password"
        hint={`At least ${PASSWORD_MIN} characters. A short sentence is good.`}
        autoComplete="new-password"
        maxLength={128}
        error={errors['password']}
      />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Making your account' : 'Make my account'}
      </Button>
    </form>
  );
}

/** The two ways to become known; both come back to the invitation. */
export function JoinForms({ id }: { id: string }) {
  const [way, setWay] = useState<'new' | 'known'>('new');
  const to = `/join/${encodeURIComponent(id)}`;
  return (
    <>
      <Segment label="Account" parts={WAYS} value={way} onChange={setWay} />
      {way === 'new' ? <NewAccount to={to} /> : <SignInForm to={to} />}
    </>
  );
}
