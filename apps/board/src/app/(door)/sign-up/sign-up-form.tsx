'use client';
import { useRef } from 'react';
import { signUp, startContractor } from '../../../lib/auth.ts';
import { newKey, type Answer } from '../../../lib/client.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, newPasswordGaps, PASSWORD_MIN, textOf, useDoor } from '../use-door.ts';

export function SignUpForm() {
  // The account may be made and the contractor refused: the next try then goes on from there.
  const account = useRef('');
  async function start(form: FormData): Promise<Answer<unknown>> {
    const email = textOf(form, 'email').trim();
    if (account.current !== email) {
      const made = await signUp({ name: textOf(form, 'name').trim(), email, password: textOf(form, 'password') });
      if (!made.ok) return made;
      account.current = email;
    }
    return startContractor(textOf(form, 'firm').trim(), newKey().slice(-6));
  }
  const { busy, problem, errors, onSubmit } = useDoor(
    (form) => [...gapsOf(form, ['firm', 'name', 'email', 'password']), ...newPasswordGaps(form)],
    start,
    '/',
  );
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <TextField
        id="firm"
        name="firm"
        label="Contractor"
        hint="The name customers know; it stands on every sheet."
        autoComplete="organization"
        maxLength={120}
        error={errors['firm']}
      />
      <TextField id="name" name="name" label="Your name" autoComplete="name" maxLength={120} error={errors['name']} />
      <TextField id="email" name="email" label="E-mail" type="email" autoComplete="username" error={errors['email']} />
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
        {busy ? 'Starting' : 'Start'}
      </Button>
    </form>
  );
}
