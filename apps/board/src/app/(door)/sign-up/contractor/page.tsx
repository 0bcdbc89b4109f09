import type { Metadata } from 'next';
import { redirect } from 'next/navigation';
import { getAccount } from '../../../../lib/session.ts';
import { SignOutButton } from '../../sign-out-button.tsx';
import css from '../../door.module.css';
import { ContractorForm } from '../sign-up-form.tsx';

export const metadata: Metadata = { title: 'Start' };

/** For an account that belongs to no contractor: started half-way, or removed from one. */
export default async function ContractorPage() {
  const account = await getAccount();
  if (!account) redirect('/sign-up');
  return (
    <>
      <div>
        <h1>You belong to no contractor yet</h1>
        <p className={css['lead']}>
          You are signed in as {account.user.email}. Whoever works for a contractor joins by the link they were sent. An
          owner starts one here.
        </p>
      </div>
      <ContractorForm />
      <SignOutButton to="/sign-in" />
    </>
  );
}
