'use client';
import { askForReset } from '../../../lib/auth.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { EmailField } from '../account-fields.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, textOf, useDoor } from '../use-door.ts';

export function ForgotForm() {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['email']),
    act: (form) => askForReset(textOf(form, 'email').trim()),
    to: '/forgot/sent',
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <EmailField errors={errors} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Sending' : 'Send the link'}
      </Button>
    </form>
  );
}
