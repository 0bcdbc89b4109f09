'use client';
import { useState } from 'react';
import { signOut } from '../../lib/auth.ts';
import { Actions, Button } from '../../ui/button.tsx';

export function SignOutButton({ to }: { to: string }) {
  const [busy, setBusy] = useState(false);
  async function leave(): Promise<void> {
    setBusy(true);
    await signOut();
    location.assign(to);
  }
  return (
    <Actions>
      <Button busy={busy} onClick={() => void leave()}>
        Sign out
      </Button>
    </Actions>
  );
}
