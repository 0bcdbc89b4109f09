'use client';
import { useState } from 'react';
import { join, signIn, signUp, wantsCode } from '../../../../lib/auth.ts';
import type { Answer } from '../../../../lib/client.ts';
import { Button } from '../../../../ui/button.tsx';
import { ProblemSummary } from '../../../../ui/problem-summary.tsx';
import { Segment } from '../../../../ui/segment.tsx';
import { KnownAccountFields, NewAccountFields } from '../../account-fields.tsx';
import css from '../../door.module.css';
import { CodeForm } from '../../sign-in/code-form.tsx';
import { doorField, gapsOf, newPasswordGaps, textOf, useDoor } from '../../use-door.ts';

const WAYS = [
  { value: 'new', text: 'I am new here' },
  { value: 'known', text: 'I have an account' },
] as const;

export interface JoinProps {
  readonly id: string;
  readonly email: string;
  readonly firm: string;
}

/** Becomes known, then accepts. When only the second fails, the page loaded anew offers to accept alone. */
async function then(first: Promise<Answer<unknown>>, id: string): Promise<Answer<unknown>> {
  const known = await first;
  return known.ok && !wantsCode(known.data) ? join(id) : known;
}

function NewAccount({ id, email, firm }: JoinProps) {
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => [...gapsOf(form, ['name', 'password']), ...newPasswordGaps(form)],
    act: (form) => then(signUp({ name: textOf(form, 'name').trim(), email, password: textOf(form, 'password') }), id),
    to: '/',
  });
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <NewAccountFields errors={errors} email={email} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Joining' : `Join ${firm}`}
      </Button>
    </form>
  );
}

function KnownAccount({ id, email, firm }: JoinProps) {
  const [asked, setAsked] = useState(false);
  const { busy, problem, errors, onSubmit } = useDoor({
    check: (form) => gapsOf(form, ['password']),
    act: (form) => then(signIn({ email, password: textOf(form, 'password') }), id),
    to: '/',
    asksMore: (data) => {
      const more = wantsCode(data);
      setAsked(more);
      return more;
    },
  });
  // With the code somebody is signed in: this page, loaded anew, offers to accept alone.
  if (asked) return <CodeForm to={`/join/${id}`} onBack={() => setAsked(false)} />;
  return (
    <form className={css['fields']} method="post" noValidate onSubmit={onSubmit}>
      <ProblemSummary problem={problem} fieldOf={doorField} />
      <KnownAccountFields errors={errors} email={email} />
      <Button kind="main" type="submit" busy={busy}>
        {busy ? 'Joining' : `Sign in and join ${firm}`}
      </Button>
    </form>
  );
}

/** The two ways to become known. */
export function JoinForms(props: JoinProps) {
  const [way, setWay] = useState<'new' | 'known'>('new');
  return (
    <>
      <Segment label="Account" parts={WAYS} value={way} onChange={setWay} />
      {way === 'new' ? <NewAccount {...props} /> : <KnownAccount {...props} />}
    </>
  );
}
