import type { Metadata } from 'next';
import Link from 'next/link';
import css from '../../door.module.css';

export const metadata: Metadata = { title: 'Look in your mail' };

/** Says the same to everybody: whether an address has an account is nobody's business. */
export default function ForgotSentPage() {
  return (
    <>
      <div>
        <h1>Look in your mail</h1>
        <p className={css['lead']}>
          If the address has an account, a link is on its way. It works once, for seven days.
        </p>
      </div>
      <p className={css['other']}>
        Nothing after a few minutes? Look among the unwanted mail, <Link href="/forgot">try another address</Link>, or
        ask an owner or manager for a link.
      </p>
      <p className={css['other']}>
        <Link href="/sign-in">Sign in</Link>
      </p>
    </>
  );
}
