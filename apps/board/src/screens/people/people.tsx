'use client';
import { PeopleView, type Role } from '@ullage/contracts';
import { useState } from 'react';
import { call, send } from '../../lib/client.ts';
import { dayWords, localTime } from '../../lib/local-time.ts';
import { useLive } from '../../lib/use-live.ts';
import { EmptyState } from '../../ui/blank.tsx';
import { Actions, Button } from '../../ui/button.tsx';
import { Table, type Column } from '../../ui/table.tsx';
import { tell } from '../../ui/toast.tsx';
import { countOf } from '../../office/count-words.ts';
import { CertificatesDialog } from './certificates-dialog.tsx';
import { InviteDialog } from './invite-dialog.tsx';
import { LeftDialog } from './left-dialog.tsx';
import { MemberDialog } from './member-dialog.tsx';
import { PersonDialog } from './person-dialog.tsx';
import { certificateWords, mayChange, ROLE_NAMES, type Member } from './people-form.ts';
import css from './people.module.css';

type Invitation = PeopleView['invitations'][number];
/** Which dialog stands open; whom it is about is read from what is shown, so that it follows what others do. */
type Open =
  | { readonly is: 'invite' | 'register'; readonly id?: string }
  | { readonly is: 'certificates' | 'sign-in' | 'left'; readonly id: string };

async function fetchPeople(): Promise<PeopleView> {
  const answer = await call<unknown>('/v1/people');
  if (!answer.ok) throw new Error(answer.problem.title);
  return PeopleView.parse(answer.data);
}

export interface PeopleProps {
  readonly first: PeopleView;
  readonly mine: { readonly role: Role; readonly personId: string };
  readonly manages: boolean;
  readonly timeZone: string;
}

const standing = ({ role, signsIn }: Member): string =>
  signsIn && role !== null ? ROLE_NAMES[role] : 'Does not sign in';

const columns: readonly Column<Member>[] = [
  { id: 'name', head: 'Name', cell: (member) => <b>{member.name}</b> },
  { id: 'role', head: 'Role', cell: standing },
  { id: 'email', head: 'E-mail', cell: (member) => member.email ?? <span className="quiet">none</span> },
  {
    id: 'certificates',
    head: 'Certificates',
    cell: (member) =>
      member.certificates.length === 0 ? (
        <span className="quiet">none</span>
      ) : (
        member.certificates.map((one) => (
          <div key={one.id} className={one.standing === 'holds' ? undefined : 'quiet'}>
            {certificateWords(one)}
          </div>
        ))
      ),
  },
];

/** What may be done with somebody who is here. */
function Acts({ member, mine, open }: { member: Member; mine: PeopleProps['mine']; open: (what: Open) => void }) {
  const { id, name, signsIn, email } = member;
  return (
    <div className={css['acts']}>
      <Button onClick={() => open({ is: 'certificates', id })} aria-label={`Certificates of ${name}`}>
        Certificates
      </Button>
      {mayChange(mine, member) && (
        <Button onClick={() => open({ is: 'sign-in', id })} aria-label={`Sign-in of ${name}`}>
          Sign-in
        </Button>
      )}
      {!signsIn && email !== null && (
        <Button onClick={() => open({ is: 'invite', id })} aria-label={`Invite ${name}`}>
          Invite
        </Button>
      )}
      {!signsIn && (
        <Button onClick={() => open({ is: 'left', id })} aria-label={`${name} has left`}>
          Has left
        </Button>
      )}
    </div>
  );
}

function TakeBack({ member, onChanged }: { member: Member; onChanged: () => void }) {
  const [busy, setBusy] = useState(false);
  async function back(): Promise<void> {
    setBusy(true);
    const answer = await send('/v1/commands/reactivate-person', { body: { body: { personId: member.id } } });
    setBusy(false);
    tell(answer.ok ? `${member.name} is back.` : answer.problem.detail, answer.ok ? 'done' : 'refused');
    onChanged();
  }
  return (
    <Button busy={busy} onClick={() => void back()} aria-label={`${member.name} is back`}>
      Is back
    </Button>
  );
}

/** Whoever has left stays in the records, out of the way. */
function Left({ list, manages, onChanged }: { list: readonly Member[]; manages: boolean; onChanged: () => void }) {
  if (list.length === 0) return null;
  const act: Column<Member> = {
    id: 'act',
    head: 'Acts',
    cell: (member) => <TakeBack member={member} onChanged={onChanged} />,
  };
  return (
    <details className={css['left']}>
      <summary>Left: {countOf(list.length, 'person', 'people')}</summary>
      <Table
        caption="People who have left"
        rows={list}
        keyOf={({ id }) => id}
        columns={manages ? [...columns, act] : columns}
        empty={null}
      />
    </details>
  );
}

function Invitations({ list, timeZone, onChanged }: InvitationsProps) {
  const [busy, setBusy] = useState('');
  async function withdraw({ id, email }: Invitation): Promise<void> {
    setBusy(id);
    const answer = await send(`/v1/people/invitations/${id}`, { method: 'DELETE' });
    setBusy('');
    tell(answer.ok ? `The invitation of ${email} is withdrawn.` : answer.problem.title, answer.ok ? 'done' : 'refused');
    onChanged();
  }
  return (
    <Table
      caption="Invitations that nobody has used yet"
      rows={list}
      keyOf={({ id }) => id}
      empty={<p className="quiet">No invitation waits.</p>}
      columns={[
        { id: 'email', head: 'E-mail', cell: ({ email }) => <b>{email}</b> },
        { id: 'role', head: 'Role', cell: ({ role }) => ROLE_NAMES[role] },
        { id: 'until', head: 'Ends', cell: ({ expiresAt }) => dayWords(localTime(expiresAt, timeZone).day) },
        {
          id: 'act',
          head: 'Acts',
          cell: (one) => (
            <Button
              busy={busy === one.id}
              onClick={() => void withdraw(one)}
              aria-label={`Withdraw the invitation of ${one.email}`}
            >
              Withdraw
            </Button>
          ),
        },
      ]}
    />
  );
}
interface InvitationsProps {
  readonly list: readonly Invitation[];
  readonly timeZone: string;
  readonly onChanged: () => void;
}

function Dialogs({ open, person, mine, mails, timeZone, ...shared }: DialogsProps) {
  if (open.is === 'invite') return <InviteDialog mine={mine.role} mails={mails} person={person} {...shared} />;
  if (open.is === 'register') return <PersonDialog {...shared} />;
  if (!person) return null;
  switch (open.is) {
    case 'certificates':
      return <CertificatesDialog person={person} timeZone={timeZone} {...shared} />;
    case 'sign-in':
      return <MemberDialog mine={mine.role} mails={mails} member={person} {...shared} />;
    case 'left':
      return <LeftDialog person={person} {...shared} />;
  }
}
interface DialogsProps {
  readonly open: Open;
  readonly person: Member | undefined;
  readonly mine: PeopleProps['mine'];
  /** Whether links are mailed. */
  readonly mails: boolean;
  readonly timeZone: string;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

/** Who belongs to the contractor, what they may do, and what the law lets them do. */
export function People(props: PeopleProps) {
  const { data, refresh } = useLive(props.first, fetchPeople);
  const [open, setOpen] = useState<Open>();
  const here = data.items.filter(({ active }) => active);
  const acts: Column<Member> = {
    id: 'acts',
    head: 'Acts',
    cell: (member) => <Acts member={member} mine={props.mine} open={setOpen} />,
  };
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>People</h1>
        {props.manages && (
          <Actions>
            <Button kind="main" onClick={() => setOpen({ is: 'invite' })}>
              Invite somebody
            </Button>
            <Button onClick={() => setOpen({ is: 'register' })}>Register a person</Button>
          </Actions>
        )}
      </header>
      <Table
        caption="People of this contractor"
        rows={here}
        keyOf={({ id }) => id}
        columns={props.manages ? [...columns, acts] : columns}
        empty={<EmptyState title="Nobody is here yet." />}
      />
      {props.manages && (
        <section aria-labelledby="invitations">
          <h2 id="invitations">Invitations</h2>
          <Invitations list={data.invitations} timeZone={props.timeZone} onChanged={refresh} />
        </section>
      )}
      <Left list={data.items.filter(({ active }) => !active)} manages={props.manages} onChanged={refresh} />
      {open && (
        <Dialogs
          open={open}
          person={data.items.find(({ id }) => id === open.id)}
          mine={props.mine}
          mails={data.mailsLinks}
          timeZone={props.timeZone}
          onClose={() => setOpen(undefined)}
          onChanged={refresh}
        />
      )}
    </main>
  );
}
