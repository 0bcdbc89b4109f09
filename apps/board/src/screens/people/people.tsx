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
import { InviteDialog } from './invite-dialog.tsx';
import { MemberDialog } from './member-dialog.tsx';
import { PersonDialog } from './person-dialog.tsx';
import { certificateWords, mayChange, ROLE_NAMES, type Member } from './people-form.ts';
import css from './people.module.css';

type Invitation = PeopleView['invitations'][number];
type Open =
  | { readonly is: 'invite' | 'person'; readonly person?: Member | undefined }
  | { readonly is: 'member'; readonly person: Member };

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

const standing = (member: Member): string => {
  if (!member.active) return 'Left';
  if (member.signsIn) return member.role === null ? 'Signs in' : ROLE_NAMES[member.role];
  return 'Does not sign in';
};

function columnsOf(props: PeopleProps, open: (what: Open) => void): Column<Member>[] {
  const columns: Column<Member>[] = [
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
          member.certificates.map((one) => <div key={one.id}>{certificateWords(one)}</div>)
        ),
    },
  ];
  if (!props.manages) return columns;
  return [
    ...columns,
    {
      id: 'acts',
      head: 'Acts',
      cell: (member) => (
        <div className={css['acts']}>
          <Button
            onClick={() => open({ is: 'person', person: member })}
            aria-label={`Add a certificate of ${member.name}`}
          >
            Certificate
          </Button>
          {mayChange(props.mine, member) && (
            <Button onClick={() => open({ is: 'member', person: member })} aria-label={`Sign-in of ${member.name}`}>
              Sign-in
            </Button>
          )}
          {!member.signsIn && member.active && member.email !== null && (
            <Button onClick={() => open({ is: 'invite', person: member })} aria-label={`Invite ${member.name}`}>
              Invite
            </Button>
          )}
        </div>
      ),
    },
  ];
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

/** Who belongs to the contractor, what they may do, and what the law lets them do. */
export function People(props: PeopleProps) {
  const { data, refresh } = useLive(props.first, fetchPeople);
  const [open, setOpen] = useState<Open>();
  const close = (): void => setOpen(undefined);
  const shared = { onClose: close, onChanged: refresh };
  return (
    <main className={css['page']}>
      <header className={css['head']}>
        <h1>People</h1>
        {props.manages && (
          <Actions>
            <Button kind="main" onClick={() => setOpen({ is: 'invite' })}>
              Invite somebody
            </Button>
            <Button onClick={() => setOpen({ is: 'person' })}>Register a person</Button>
          </Actions>
        )}
      </header>
      <Table
        caption="People of this contractor"
        rows={data.items}
        keyOf={({ id }) => id}
        columns={columnsOf(props, setOpen)}
        empty={<EmptyState title="Nobody is here yet." />}
      />
      {props.manages && (
        <section aria-labelledby="invitations">
          <h2 id="invitations">Invitations</h2>
          <Invitations list={data.invitations} timeZone={props.timeZone} onChanged={refresh} />
        </section>
      )}
      {open?.is === 'invite' && (
        <InviteDialog mine={props.mine.role} mails={data.mailsLinks} person={open.person} {...shared} />
      )}
      {open?.is === 'person' && <PersonDialog person={open.person} {...shared} />}
      {open?.is === 'member' && (
        <MemberDialog mine={props.mine.role} mails={data.mailsLinks} member={open.person} {...shared} />
      )}
    </main>
  );
}
