import type { Metadata } from 'next';
import Link from 'next/link';
import css from '../door.module.css';
import { SignUpForm } from './sign-up-form.tsx';

export const metadata: Metadata = { title: 'Start' };

export default function SignUpPage() {
  return (
    <>
      <div>
        <h1>Start with your contractor</h1>
        <p className={css['lead']}>You will be its owner. Others join by a link you send them.</p>
      </div>
      <SignUpForm />
      <p className={css['other']}>
        Have an account? <Link href="/sign-in">Sign in</Link>.
      </p>
    </>
  );
}
