import { ROLE_WORDS } from '@ullage/contracts';
import type { Metadata } from 'next';
import Link from 'next/link';
import type { ReactNode } from 'react';
import { getAccount, getInvitation, type Invitation } from '../../../../lib/session.ts';
import css from '../../door.module.css';
import { SignOutButton } from '../../sign-out-button.tsx';
import { AcceptButton } from './accept-button.tsx';
import { JoinForms } from './join-forms.tsx';

export const metadata: Metadata = { title: 'Join', referrer: 'no-referrer' };

function Head({ title, children }: { title: string; children: ReactNode }) {
  return (
    <div>
      <h1>{title}</h1>
      <p className={css['lead']}>{children}</p>
    </div>
  );
}

function Gone() {
  return (
    <>
      <Head title="This invitation cannot be used">
        It was used, withdrawn, or is older than seven days. Ask whoever sent it for a new one.
      </Head>
      <p className={css['other']}>
        <Link href="/">Go to the start</Link>
      </p>
    </>
  );
}

function Open({ id, invitation, email }: { id: string; invitation: Invitation; email: string | undefined }) {
  const { contractor, role } = invitation;
  if (email !== undefined && email.toLowerCase() !== invitation.email.toLowerCase())
    return (
      <>
        <Head title="This invitation is for another address">
          It was sent to {invitation.email}. You are signed in as {email}: sign out, and the page asks again.
        </Head>
        <SignOutButton to={`/join/${encodeURIComponent(id)}`} />
      </>
    );
  return (
    <>
      <Head title={`Join ${contractor}`}>You are invited as {ROLE_WORDS[role]}.</Head>
      {email === undefined ? (
        <JoinForms id={id} email={invitation.email} firm={contractor} />
      ) : (
        <AcceptButton id={id} firm={contractor} />
      )}
    </>
  );
}

export default async function JoinPage({ params }: PageProps<'/join/[id]'>) {
  const { id } = await params;
  const [account, invitation] = await Promise.all([getAccount(), getInvitation(id)]);
  return invitation ? <Open id={id} invitation={invitation} email={account?.user.email} /> : <Gone />;
}
