import { connection } from 'next/server';
import { FirmMark } from '../ui/firm-mark.tsx';
import { Nowhere } from '../ui/nowhere.tsx';
import css from './plain.module.css';

export default async function NotFound() {
  // A page made at build time could not carry the nonce, and its scripts would be blocked.
  await connection();
  return (
    <main className={css['plain']}>
      <FirmMark size={28} />
      <Nowhere />
    </main>
  );
}
