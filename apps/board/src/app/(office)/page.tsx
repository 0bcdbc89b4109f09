import { getMe } from '../../lib/session.ts';
import css from './office.module.css';

export default async function StartPage() {
  const { user, tenant } = await getMe();
  return (
    <main className={css['start']}>
      <h1>{tenant.name}</h1>
      <p className="quiet">You are signed in as {user.name}.</p>
    </main>
  );
}
