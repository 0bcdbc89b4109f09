import type { Metadata } from 'next';
import Link from 'next/link';
import { safeNext } from '../../../lib/access.ts';
import css from '../door.module.css';
import { SignInForm } from './sign-in-form.tsx';

export const metadata: Metadata = { title: 'Sign in' };

export default async function SignInPage({ searchParams }: PageProps<'/sign-in'>) {
  const { next } = await searchParams;
  const to = safeNext(typeof next === 'string' ? next : undefined);
  return (
    <>
      <div>
        <h1>Sign in</h1>
        {to !== '/' && <p className={css['lead']}>Then we go on to the page you asked for.</p>}
      </div>
      <SignInForm to={to} />
      <p className={css['other']}>
        <Link href="/forgot">Forgot the password?</Link>
      </p>
      <p className={css['other']}>
        New here? <Link href="/sign-up">Start with your contractor</Link>. Somebody who works for one joins by the link
        they were sent.
      </p>
    </>
  );
}
