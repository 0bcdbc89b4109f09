import type { Metadata } from 'next';
import Link from 'next/link';
import css from '../../door.module.css';
import { ResetForm } from './reset-form.tsx';

export const metadata: Metadata = { title: 'New password', referrer: 'no-referrer' };

export default async function ResetPage({ params }: PageProps<'/reset/[token]'>) {
  const { token } = await params;
  return (
    <>
      <div>
        <h1>Choose a new password</h1>
        <p className={css['lead']}>You are signed out everywhere else, and sign in with it next.</p>
      </div>
      <ResetForm token={token} />
      <p className={css['other']}>
        The link does not work any more? <Link href="/forgot">Ask for another</Link>.
      </p>
    </>
  );
}
