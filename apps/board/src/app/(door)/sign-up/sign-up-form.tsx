'use client';
import { useRef } from 'react';
import { signUp, startContractor } from '../../../lib/auth.ts';
import type { Answer } from '../../../lib/client.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { NewAccountFields } from '../account-fields.tsx';
import css from '../door.module.css';
import { FirmFields } from '../firm-fields.tsx';
import { doorField, gapsOf, newPasswordGaps, textOf, useDoor } from '../use-door.ts';

const firmOf = (form: FormData): { name: string; timeZone: string } => ({
  name: textOf(form, 'firm').trim(),
  timeZone: textOf(form, 'timeZone'),
});

/** The owner's account and the contractor, in one go. */
export function SignUpForm() {
  // The account may be made and the contractor refused: the next try then goes on from there.
  const account = useRef('');
  async function act(form: FormData): Promise<Answer<unknown>> {
    const email = textOf(form, 'email').trim();
    if (account.current !== email) {
      const made = await signUp({ name: textOf(form, 'name').trim(), email, password: textOf(form, 'password') });
      if (!made.ok) return made;
      account.current = email;
    }
    return startContractor(firmOf(form));
  }
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => [...gapsOf(form, ['firm', 'timeZone', 'name', 'email', 'password']), ...newPasswordGaps(form)],
    act,
    to: '/',
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <FirmFields errors={errors} />
      <NewAccountFields errors={errors} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Starting' : 'Start'}
      </Button>
    </form>
  );
}

/** The contractor alone, for somebody who has an account and belongs to none. */
export function ContractorForm() {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['firm', 'timeZone']),
    act: (form) => startContractor(firmOf(form)),
    to: '/',
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <FirmFields errors={errors} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Starting' : 'Start'}
      </Button>
    </form>
  );
}
