'use client';
import { giveCode } from '../../../lib/auth.ts';
import { Button } from '../../../ui/button.tsx';
import { ProblemSummary } from '../../../ui/problem-summary.tsx';
import { TextField } from '../../../ui/text-field.tsx';
import css from '../door.module.css';
import { doorField, gapsOf, textOf, useDoor } from '../use-door.ts';

/** The password was right; now the second factor. */
export function CodeForm({ to, onBack }: { to: string; onBack: () => void }) {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['code']),
    act: (form) => giveCode(textOf(form, 'code')),
    to,
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <TextField
        id="code"
        name="code"
        label="Code"
        hint="Six digits from your authenticator app, or one of your recovery codes."
        autoComplete="one-time-code"
        autoFocus
        maxLength={40}
        error={errors['code']}
      />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Signing in' : 'Go on'}
      </Button>
      <Button onClick={onBack}>Back to the password</Button>
      <p className={css['other']}>Phone and codes lost? An owner or manager of your contractor takes this step away.</p>
    </form>
  );
}
