'use client';
import type { Role } from '@ullage/contracts';
import { useState } from 'react';
import { Actions, Button } from '../../ui/button.tsx';
import { Dialog } from '../../ui/dialog.tsx';
import { ProblemSummary } from '../../ui/problem-summary.tsx';
import { Select } from '../../ui/select.tsx';
import { tell } from '../../ui/toast.tsx';
import { HandedLink, type Handed } from './link-once.tsx';
import { peopleField, placedWords, ROLE_NAMES, rolesFor, type Member } from './people-form.ts';
import { useAct } from '../../lib/use-act.ts';
import css from './people.module.css';

export interface MemberDialogProps {
  readonly mine: Role;
  /** Whether links are mailed; else whoever makes one hands it on. */
  readonly mails: boolean;
  readonly member: Member;
  readonly onClose: () => void;
  readonly onChanged: () => void;
}

/** Asks once more before the door is shut. */
function Leaving({ member, busy, onRemove }: { member: Member; busy: boolean; onRemove: () => void }) {
  const [sure, setSure] = useState(false);
  if (!sure)
    return (
      <Actions>
        <Button onClick={() => setSure(true)}>Take the sign-in away</Button>
      </Actions>
    );
  return (
    <div className={css['sure']} role="group" aria-label="Take the sign-in away">
      <p>
        {member.name} is signed out everywhere, at once, and counts as having left. The name and certificates stay in
        the records, and they can be taken back. {placedWords(member)}
      </p>
      <Actions>
        <Button kind="danger" autoFocus busy={busy} onClick={onRemove}>
          Take the sign-in away
        </Button>
        <Button onClick={() => setSure(false)}>Leave it</Button>
      </Actions>
    </div>
  );
}

/** What may be done with somebody who signs in: another role, a link for a forgotten password, or the door. */
export function MemberDialog({ mine, mails, member, onClose, onChanged }: MemberDialogProps) {
  const [role, setRole] = useState<string>(member.role ?? '');
  const [link, setLink] = useState<Handed>();
  const { busy, problem, act } = useAct();
  const at = `/v1/people/${encodeURIComponent(member.id)}` as const;
  async function changeRole(): Promise<void> {
    if ((await act(`${at}/role`, { body: { role } })) === undefined) return;
    tell(`${member.name} is now ${ROLE_NAMES[role as Role].toLowerCase()}.`);
    onChanged();
    onClose();
  }
  async function remove(): Promise<void> {
    if ((await act(`${at}/sign-in`, { method: 'DELETE' })) === undefined) return;
    tell(`${member.name} can no longer sign in.`);
    onChanged();
    onClose();
  }
  async function reset(): Promise<void> {
    const made = await act<Handed>(`${at}/reset-link`, { body: {} });
    if (made) setLink(made);
  }
  return (
    <Dialog open title={member.name} onClose={onClose} actions={<Button onClick={onClose}>Done</Button>}>
      <div className={css['fields']}>
        <ProblemSummary problem={problem} fieldOf={peopleField} />
        {link && <HandedLink link={link} shown={`${member.name} chooses a new password by this link.`} />}
        <Select
          id="people-role"
          label="Role"
          options={rolesFor(mine)}
          value={role}
          onChange={({ target }) => setRole(target.value)}
        />
        <Actions>
          <Button
            kind="main"
            busy={busy}
            disabledBecause={role === member.role ? 'Choose another role first.' : undefined}
            onClick={() => void changeRole()}
          >
            Change the role
          </Button>
          <Button busy={busy} onClick={() => void reset()}>
            {mails ? 'Mail a link for a new password' : 'Link for a new password'}
          </Button>
        </Actions>
        <Leaving member={member} busy={busy} onRemove={() => void remove()} />
      </div>
    </Dialog>
  );
}
