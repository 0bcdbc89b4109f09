'use client';
import { resetPassword } from '../../../../lib/auth.ts';
import { Button } from '../../../../ui/button.tsx';
import { ProblemSummary } from '../../../../ui/problem-summary.tsx';
import { NewPassword } from '../../account-fields.tsx';
import css from '../../door.module.css';
import { doorField, gapsOf, newPasswordGaps, textOf, useDoor } from '../../use-door.ts';

export function ResetForm({ token }: { token: string }) {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => [...gapsOf(form, ['password']), ...newPasswordGaps(form)],
    act: (form) => resetPassword(token, textOf(form, 'password')),
    to: '/sign-in',
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <NewPassword errors={errors} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Saving' : 'Save the password'}
      </Button>
    </form>
  );
}
