import { connection } from 'next/server';
import { ButtonLink } from '../ui/button-link.tsx';
import { FirmMark } from '../ui/firm-mark.tsx';
import { EmptyState } from '../ui/blank.tsx';
import css from './plain.module.css';

/** The same page for what does not exist and for what belongs to somebody else. */
export default async function NotFound() {
  // A page made at build time could not carry the nonce, and its scripts would be blocked.
  await connection();
  return (
    <main className={css['plain']}>
      <FirmMark size={28} />
      <EmptyState
        as="h1"
        title="There is nothing at this address."
        actions={<ButtonLink href="/">Go to the start</ButtonLink>}
      >
        <p>It may have been typed wrongly, or it is not yours to see.</p>
      </EmptyState>
    </main>
  );
}
