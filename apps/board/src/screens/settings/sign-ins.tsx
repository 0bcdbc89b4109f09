'use client';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { momentWords } from '../../lib/local-time.ts';
import { EmptyState } from '../../ui/blank.tsx';
import { Actions, Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { State } from '../../ui/state.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { tell } from '../../ui/toast.tsx';
import { useAct } from '../../lib/use-act.ts';
import css from './settings.module.css';

export interface PersonSignIn {
  readonly personId: string;
  readonly name: string;
  readonly role: string;
  readonly secondFactor: boolean;
  readonly sessions: number;
  readonly usedAt: string | null;
  /** Another than oneself, and not an owner unless one is an owner. */
  readonly mayAct: boolean;
}
type What = 'sessions' | 'second-factor';
interface Open {
  readonly what: What;
  readonly who: PersonSignIn;
}
const WORDS = {
  sessions: {
    title: (name: string) => `Sign ${name} out everywhere`,
    text: 'Every device is out at the next touch, a lost phone too. The password stays; they sign in again with it.',
    act: 'Sign out everywhere',
    done: (name: string) => `${name} is signed out everywhere.`,
  },
  'second-factor': {
    title: (name: string) => `Take the second factor of ${name} away`,
    text: 'For somebody who lost phone and recovery codes. Make sure it is they who ask: the password alone then opens the account.',
    act: 'Take it away',
    done: (name: string) => `${name} signs in with the password alone.`,
  },
} as const;

function Sure({ open: { what, who }, onClose }: { open: Open; onClose: () => void }) {
  const { busy, problem, act } = useAct();
  const router = useRouter();
  const words = WORDS[what];
  async function go(): Promise<void> {
    if ((await act(`/v1/people/${who.personId}/${what}`, { method: 'DELETE' })) === undefined) return;
    tell(words.done(who.name));
    onClose();
    router.refresh();
  }
  return (
    <Dialog
      open
      title={words.title(who.name)}
      onClose={onClose}
      actions={
        <>
          <Button kind="danger" busy={busy} onClick={() => void go()}>
            {words.act}
          </Button>
          <Button autoFocus onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <ProblemSummary problem={problem} fieldOf={() => undefined} />
      <p>{words.text}</p>
    </Dialog>
  );
}

const columnsOf = (timeZone: string, setOpen: (open: Open) => void): Column<PersonSignIn>[] => [
  {
    id: 'name',
    head: 'Name',
    cell: ({ name, role }) => (
      <>
        <b>{name}</b>
        <small>{role}</small>
      </>
    ),
  },
  {
    id: 'factor',
    head: 'Second factor',
    cell: ({ secondFactor }) => (secondFactor ? <State mark="done">On</State> : <span className="quiet">Off</span>),
  },
  {
    id: 'sessions',
    head: 'Signed in',
    cell: ({ sessions }) => (sessions === 1 ? 'on 1 device' : `on ${sessions} devices`),
  },
  {
    id: 'used',
    head: 'Last used',
    cell: ({ usedAt }) =>
      usedAt === null ? <span className="quiet">not signed in</span> : momentWords(usedAt, timeZone),
  },
  {
    id: 'acts',
    head: 'Acts',
    cell: (who) =>
      who.mayAct && (
        <Actions>
          {who.sessions > 0 && (
            <Button onClick={() => setOpen({ what: 'sessions', who })} aria-label={`Sign out everywhere: ${who.name}`}>
              Sign out everywhere
            </Button>
          )}
          {who.secondFactor && (
            <Button
              onClick={() => setOpen({ what: 'second-factor', who })}
              aria-label={`Second factor of ${who.name}: take it away`}
            >
              Second factor
            </Button>
          )}
        </Actions>
      ),
  },
];

/** Who signs in, by what, and what to do about a lost phone. */
export function SignIns({ people, timeZone }: { people: readonly PersonSignIn[]; timeZone: string }) {
  const [open, setOpen] = useState<Open>();
  return (
    <section className={css['part']}>
      <Table
        caption="Sign-ins of people"
        rows={people}
        keyOf={({ personId }) => personId}
        empty={<EmptyState title="Nobody signs in yet." />}
        columns={columnsOf(timeZone, setOpen)}
      />
      {open && <Sure open={open} onClose={() => setOpen(undefined)} />}
    </section>
  );
}
