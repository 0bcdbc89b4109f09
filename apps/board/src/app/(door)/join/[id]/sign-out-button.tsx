'use client';
import { useState } from 'react';
import { signOut } from '../../../../lib/auth.ts';
import { Button } from '../../../../ui/button.tsx';
import css from '../../door.module.css';

export function SignOutButton({ to }: { to: string }) {
  const [busy, setBusy] = useState(false);
  async function leave(): Promise<void> {
    setBusy(true);
    await signOut();
    location.assign(to);
  }
  return (
    <div className={css['fields']}>
      <Button kind="main" busy={busy} onClick={() => void leave()}>
        Sign out
      </Button>
    </div>
  );
}
