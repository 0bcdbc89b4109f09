'use client';
import type { Route } from 'next';
import { useId, useState } from 'react';
import { signOut } from '../../lib/auth.ts';
import { ButtonLink } from '../../ui/button-link.tsx';
import { Actions, Button } from '../../ui/button.tsx';
import css from './office.module.css';

async function leave(): Promise<void> {
  await signOut();
  location.assign('/sign-in');
}

/** The platform's popover: it stands on every page, and one entry needs no menu library. */
export function PersonMenu({ name, email }: { name: string; email: string }) {
  const id = useId();
  const [busy, setBusy] = useState(false);
  return (
    <>
      <button type="button" className={css['person']} popoverTarget={id}>
        <span>{name}</span>
      </button>
      <div id={id} popover="auto" className={css['card']} role="group" aria-label="Account">
        <p>
          <b>{name}</b>
          <br />
          <span className="quiet">{email}</span>
        </p>
        <Actions>
          <ButtonLink
            href={'/settings' as Route}
            onClick={({ currentTarget }) => currentTarget.closest<HTMLElement>('[popover]')?.hidePopover()}
          >
            Settings
          </ButtonLink>
          <Button
            busy={busy}
            onClick={() => {
              setBusy(true);
              void leave();
            }}
          >
            Sign out
          </Button>
        </Actions>
      </div>
    </>
  );
}
