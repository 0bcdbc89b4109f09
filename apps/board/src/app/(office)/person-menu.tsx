'use client';
import { signOut } from '../../lib/auth.ts';
import { Menu } from '../../ui/menu.tsx';
import css from './office.module.css';

async function leave(): Promise<void> {
  await signOut();
  location.assign('/sign-in');
}

export function PersonMenu({ name, email }: { name: string; email: string }) {
  return (
    <Menu
      label={`${name}, account`}
      kind="bare"
      entries={[{ id: 'out', text: 'Sign out', note: email }]}
      onChoose={() => void leave()}
    >
      <span className={css['name']}>{name}</span>
    </Menu>
  );
}
