import type { Metadata } from 'next';
import Link from 'next/link';
import { getInvitation, getSession, type Invitation } from '../../../../lib/session.ts';
import css from '../../door.module.css';
import { AcceptButton } from './accept-button.tsx';
import { JoinForms } from './join-forms.tsx';
import { SignOutButton } from './sign-out-button.tsx';
import { roleWords } from './role-words.ts';

export const metadata: Metadata = { title: 'Join' };

function Head({ title, children }: { title: string; children: React.ReactNode }) {
  return (
    <div>
      <h1>{title}</h1>
      <p className={css['lead']}>{children}</p>
    </div>
  );
}

function Open({ invitation, name }: { invitation: Invitation; name: string }) {
  return (
    <>
      <Head title={`Join ${invitation.organizationName}`}>
        {invitation.inviterEmail} invites you, {name}, as {roleWords(invitation.role)}.
      </Head>
      <AcceptButton id={invitation.id} firm={invitation.organizationName} />
    </>
  );
}

export default async function JoinPage({ params }: PageProps<'/join/[id]'>) {
  const { id } = await params;
  const [session, seen] = await Promise.all([getSession(), getInvitation(id)]);
  switch (seen.is) {
    case 'open':
      return <Open invitation={seen.invitation} name={session?.user.name ?? 'guest'} />;
    case 'closed-to-strangers':
      return (
        <>
          <Head title="You are invited">
            Use the e-mail address this link was sent to. Then you see who invites you, and decide.
          </Head>
          <JoinForms id={id} />
        </>
      );
    case 'for-somebody-else':
      return (
        <>
          <Head title="This invitation is for another address">
            You are signed in as {session?.user.email}. Sign out, then open the link again with the address it was sent
            to.
          </Head>
          <SignOutButton to={`/join/${id}`} />
        </>
      );
    case 'gone':
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
}
