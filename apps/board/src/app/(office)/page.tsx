import { redirect } from 'next/navigation';
import { getContractor, getSession } from '../../lib/session.ts';
import css from './office.module.css';

export default async function StartPage() {
  const session = await getSession();
  if (!session) redirect('/sign-in');
  const contractor = await getContractor(session.session.activeOrganizationId);
  return (
    <main className={css['start']}>
      <h1>{contractor?.name ?? 'You belong to no contractor yet'}</h1>
      <p className="quiet">
        {contractor
          ? `You are signed in as ${session.user.name}.`
          : 'Open the link you were sent, or start one of your own.'}
      </p>
    </main>
  );
}
