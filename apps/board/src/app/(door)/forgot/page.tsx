import type { Metadata } from 'next';
import Link from 'next/link';
import { getResetWay } from '../../../lib/session.ts';
import css from '../door.module.css';
import { ForgotForm } from './forgot-form.tsx';

export const metadata: Metadata = { title: 'Forgotten password' };

export default async function ForgotPage() {
  const { byMail } = await getResetWay();
  return (
    <>
      <div>
        <h1>Forgot the password?</h1>
        <p className={css['lead']}>
          {byMail
            ? 'A link to choose a new one goes to the address you sign in with.'
            : 'Ask an owner or manager of your contractor: under People they make a link by which you choose a new one.'}
        </p>
      </div>
      {byMail && <ForgotForm />}
      <p className={css['other']}>
        Know it after all? <Link href="/sign-in">Sign in</Link>.
      </p>
    </>
  );
}
